import { type Kysely, sql } from 'kysely';
import { say } from '../wording/say.ts';
import type { Migration } from './migrations/build.ts';
import { migrations } from './migrations/index.ts';
import { RecordProblem } from './problem.ts';
import type { DatabaseKind, Tables } from './tables.ts';

// Any number, the same in every process, so that two servers starting on one PostgreSQL take turns.
const MIGRATION_LOCK = 7_325_119;

/**
 * Brings the tables up to date. Kysely's own migrator opens no transaction on SQLite, so a kill between the step and the note of
 * it would leave a database that cannot start; here both stand in one transaction. Returns the names of the steps that ran.
 */
export async function migrate(
  kysely: Kysely<Tables>,
  kind: DatabaseKind,
  steps: readonly Migration[] = migrations,
): Promise<string[]> {
  const strict = sql.raw(kind === 'sqlite' ? 'strict' : '');
  await sql`create table if not exists migrations_done (name text not null primary key, done_at text not null) ${strict}`.execute(
    kysely,
  );
  const ran: string[] = [];
  for (const step of steps) {
    const did = await kysely.transaction().execute(async (transaction) => {
      if (kind === 'postgres') await sql`select pg_advisory_xact_lock(${MIGRATION_LOCK})`.execute(transaction);
      const done = await sql`select name from migrations_done where name = ${step.name}`.execute(transaction);
      if (done.rows.length > 0) return false;
      await step.up(transaction, kind);
      await sql`insert into migrations_done (name, done_at) values (${step.name}, ${new Date().toISOString()})`.execute(
        transaction,
      );
      return true;
    });
    if (did) ran.push(step.name);
  }
  const known = new Set(steps.map((step) => step.name));
  const all = await sql<{ name: string }>`select name from migrations_done`.execute(kysely);
  const unknown = all.rows.find((row) => !known.has(row.name));
  if (unknown) throw new RecordProblem('database-newer', say('records.newer', { step: unknown.name }));
  return ran;
}
