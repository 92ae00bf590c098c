import type { Limits, LimitWanted } from '../schema/limits.ts';
import { checkRuleChange } from '../winter/rule-settings.ts';
import { WATCH_RULES } from '../winter/watch-rules.ts';
import type { RuleSettings } from '../winter/watch-types.ts';
import { say } from '../wording/say.ts';
import { announceEntry } from './announce.ts';
import type { Database } from './database.ts';
import { read, type Scope } from './entries.ts';
import { STAY } from './kinds.ts';
import { RecordProblem } from './problem.ts';

const nameOf = (stayId: string) => `limits:${stayId}`;

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
  const rule = WATCH_RULES.find((one) => one.id === wanted.ruleId);
  if (!rule)
    throw new RecordProblem('invalid', say('records.noRule'), [{ where: 'ruleId', what: say('records.noRule') }]);
  const { ruleId, ...values } = wanted;
  const checked = checkRuleChange(rule.id, values as { limit?: number; durationS?: number }, who.role);
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
