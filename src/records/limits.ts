import type { Transaction } from 'kysely';
import type { Limits, LimitWanted, StayLimits } from '../schema/limits.ts';
import { checkRuleChange, type RuleChange } from '../winter/rule-settings.ts';
import { WATCH_RULES } from '../winter/watch-rules.ts';
import type { RuleSettings } from '../winter/watch-types.ts';
import { say } from '../wording/say.ts';
import { announceEntry } from './announce.ts';
import type { Database } from './database.ts';
import { read, type Scope } from './entries.ts';
import { STAY } from './kinds.ts';
import { RecordProblem } from './problem.ts';
import type { Tables } from './tables.ts';

const NAMED = 'limits:';
const nameOf = (stayId: string) => `${NAMED}${stayId}`;

/** The limits set for one stay, with every change of them, oldest first. */
export async function limitsOf(database: Database, scope: Scope, stayId: string): Promise<Limits> {
  await read(database, scope, STAY, stayId);
  return keptLimits(database, scope.groupId, stayId);
}

async function keptLimits(database: Pick<Database, 'kysely'>, groupId: string, stayId: string): Promise<Limits> {
  const row = await database.kysely
    .selectFrom('settings')
    .select('value')
    .where('groupId', '=', groupId)
    .where('name', '=', nameOf(stayId))
    .executeTakeFirst();
  return row ? (JSON.parse(row.value) as Limits) : { limits: [], changes: [] };
}

/** The same as the watch takes them; undefined while every rule has its usual limit. */
export async function ruleSettingsOf(
  database: Database,
  groupId: string,
  stayId: string,
): Promise<RuleSettings | undefined> {
  const { limits } = await keptLimits(database, groupId, stayId);
  if (limits.length === 0) return undefined;
  return Object.fromEntries(limits.map(({ ruleId, ...values }) => [ruleId, values])) as RuleSettings;
}

/**
 * Sets the limit of one rule for one stay. Anyone who keeps may tighten; what is looser than the usual limit needs the tutor. Every
 * change is kept with who made it and when. Throws RecordProblem `not-allowed` with the sentence that says why.
 */
export async function setLimit(
  database: Database,
  scope: Scope,
  who: { readonly role: 'tutor' | 'keeper' | 'reader'; readonly name: string },
  stayId: string,
  wanted: LimitWanted,
): Promise<Limits> {
  const stay = await read(database, scope, STAY, stayId);
  const { ruleId } = wanted;
  const checked = changeOf(wanted, who.role);
  if (checked === undefined)
    throw new RecordProblem('invalid', say('records.noRule'), [{ where: 'ruleId', what: say('records.noRule') }]);
  if (!checked.allowed) throw new RecordProblem('not-allowed', say(checked.say));
  const saved = await database.kysely.transaction().execute(async (transaction) => {
    const kept = await keptLimits({ kysely: transaction as never }, scope.groupId, stayId);
    const others = kept.limits.filter((one) => one.ruleId !== ruleId);
    const next: Limits = {
      limits: checked.direction === 'same' ? others : [...others, wanted],
      changes: [
        ...kept.changes,
        { at: new Date(scope.nowMs).toISOString(), by: who.name, change: wanted, direction: checked.direction },
      ],
    };
    const value = JSON.stringify(next);
    await transaction
      .insertInto('settings')
      .values({ groupId: scope.groupId, name: nameOf(stayId), value })
      .onConflict((conflict) => conflict.columns(['groupId', 'name']).doUpdateSet({ value }))
      .execute();
    return next;
  });
  announceEntry(database, 'stay', stay);
  return saved;
}

/** Whether somebody of this role may set this limit; undefined when there is no such rule. */
function changeOf({ ruleId, ...values }: LimitWanted, role: 'tutor' | 'keeper' | 'reader'): RuleChange | undefined {
  const rule = WATCH_RULES.find((one) => one.id === ruleId);
  return rule && checkRuleChange(rule.id, values as { limit?: number; durationS?: number }, role);
}

/** What stands against a limit that comes from elsewhere: no such rule, or one that nobody may set. Undefined when nothing does. */
export function limitProblem(wanted: LimitWanted): string | undefined {
  const checked = changeOf(wanted, 'tutor');
  if (checked === undefined) return say('records.noRule');
  return checked.allowed ? undefined : say(checked.say);
}

/** The limits of these stays, for an archive. The other settings of the group, keys among them, are never read. */
export async function limitsOfStays(
  database: Database,
  groupId: string,
  stayIds: readonly string[],
): Promise<StayLimits[]> {
  const rows = await database.kysely
    .selectFrom('settings')
    .select(['name', 'value'])
    .where('groupId', '=', groupId)
    .where('name', 'like', `${NAMED}%`)
    .execute();
  const kept = new Map(rows.map((row) => [row.name, row.value]));
  return [...stayIds].sort().flatMap((stayId) => {
    const value = kept.get(nameOf(stayId));
    if (value === undefined) return [];
    const { limits, changes } = JSON.parse(value) as Limits;
    return [{ stayId, limits, changes }];
  });
}

/** Keeps the limits that come with stays of this group; those of a stay that has its own here stay as they are. */
export async function takeLimits(
  transaction: Transaction<Tables>,
  groupId: string,
  coming: readonly StayLimits[],
): Promise<{ taken: number; differing: number }> {
  let taken = 0;
  let differing = 0;
  for (const { stayId, limits, changes } of coming) {
    const stay = await transaction.selectFrom('stays').select('groupId').where('id', '=', stayId).executeTakeFirst();
    // A stay that another group of this database keeps is not this one's to set limits for.
    if (stay?.groupId !== groupId) continue;
    const value = JSON.stringify({ limits, changes } satisfies Limits);
    const result = await transaction
      .insertInto('settings')
      .values({ groupId, name: nameOf(stayId), value })
      .onConflict((conflict) => conflict.doNothing())
      .executeTakeFirst();
    if (Number(result.numInsertedOrUpdatedRows ?? 0) > 0) taken += 1;
    else if (JSON.stringify(await keptLimits({ kysely: transaction as never }, groupId, stayId)) !== value)
      differing += 1;
  }
  return { taken, differing };
}
