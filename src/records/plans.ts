import type { KeptPlan } from '../schema/kept-plan.ts';
import type { WinterPlan } from '../winter/plan-types.ts';
import { say } from '../wording/say.ts';
import type { Database } from './database.ts';
import { read, type Scope } from './entries.ts';
import { ANIMAL } from './kinds.ts';
import { RecordProblem } from './problem.ts';

type Row = Awaited<ReturnType<typeof rowsOf>>[number];

const rowsOf = (database: Database, animalId: string) =>
  database.kysely
    .selectFrom('plans')
    .selectAll()
    .where('animalId', '=', animalId)
    .orderBy('madeAtMs')
    .orderBy('revision')
    .execute();

const keptOf = (row: Row): KeptPlan => ({
  id: row.id,
  animalId: row.animalId,
  revision: row.revision,
  madeAt: new Date(row.madeAtMs).toISOString(),
  reason: row.reason,
  request: JSON.parse(row.request),
  plan: JSON.parse(row.plan),
});

/** Every revision of every winter's plan of one animal, oldest first. */
export async function listPlans(database: Database, scope: Scope, animalId: string): Promise<KeptPlan[]> {
  await read(database, scope, ANIMAL, animalId);
  return (await rowsOf(database, animalId)).map(keptOf);
}

/** The plan in force of each animal this scope sees whose days include `day`: the newest revision of its newest winter. */
export async function plansInForce(database: Database, animalIds: readonly string[], day: string): Promise<KeptPlan[]> {
  if (animalIds.length === 0) return [];
  const rows = await database.kysely
    .selectFrom('plans')
    .selectAll()
    .where('animalId', 'in', [...animalIds])
    .orderBy('madeAtMs')
    .orderBy('revision')
    .execute();
  const newest = new Map(rows.map((row) => [row.animalId, row]));
  return [...newest.values()].map(keptOf).filter(({ plan }) => plan.fromDay <= day && day <= plan.toDay);
}

/** Keeps a plan as the next revision of its winter, with the reason. The same id again is the same plan. */
export async function keepPlan(
  database: Database,
  scope: Scope,
  made: { readonly id: string; readonly animalId: string; readonly reason: string; readonly plan: WinterPlan },
): Promise<KeptPlan> {
  return database.kysely.transaction().execute(async (transaction) => {
    const same = await transaction.selectFrom('plans').selectAll().where('id', '=', made.id).executeTakeFirst();
    if (same) {
      if (same.animalId === made.animalId) return keptOf(same);
      throw new RecordProblem('id-in-use', say('records.idInUse'), [{ where: 'id', what: say('records.idInUse') }]);
    }
    const last = await transaction
      .selectFrom('plans')
      .select((e) => e.fn.max('revision').as('revision'))
      .where('animalId', '=', made.animalId)
      .where('winter', '=', made.plan.winter)
      .executeTakeFirst();
    const row = {
      id: made.id,
      groupId: scope.groupId,
      animalId: made.animalId,
      winter: made.plan.winter,
      revision: (last?.revision ?? 0) + 1,
      madeAtMs: scope.nowMs,
      madeBy: scope.personId,
      reason: made.reason,
      request: JSON.stringify(made.plan.request),
      plan: JSON.stringify(made.plan),
    };
    await transaction.insertInto('plans').values(row).execute();
    return keptOf(row);
  });
}
