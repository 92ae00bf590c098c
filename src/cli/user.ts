import { createInterface } from 'node:readline/promises';
import { listPeople, resetPassphrase } from '../access/people.ts';
import type { Database } from '../records/database.ts';
import { presentGroup } from '../records/groups.ts';
import { say } from '../wording/say.ts';
import { table } from './layout.ts';
import { type Outcome, Refusal, UsageError } from './outcome.ts';
import { type RecordsOptions, withRecords } from './records.ts';

/** `stillwinter user list` and `stillwinter user passphrase NAME`, from the machine itself: whoever has its files has them. */
export async function userCommand(what: string, name: string | undefined, options: RecordsOptions): Promise<Outcome> {
  if (what !== 'list' && what !== 'passphrase') throw new UsageError(say('cli.user.unknown', { what }));
  if (what === 'passphrase' && name === undefined) throw new UsageError(say('cli.user.needName'));
  return withRecords(options, (database) =>
    name === undefined || what === 'list' ? list(database) : passphrase(database, name),
  );
}

async function list(database: Database): Promise<Outcome> {
  const group = await presentGroup(database);
  const people = group ? await listPeople(database, group.id) : [];
  const rows = people.map((person) => [person.signInName, person.name, person.role]);
  return {
    json: people,
    text: people.length > 0 ? table(['sign-in', 'name', 'role'], rows, [0, 1, 2]) : say('cli.user.none'),
    code: 0,
  };
}

async function passphrase(database: Database, name: string): Promise<Outcome> {
  const given = await askPassphrase(name);
  if (given === '') throw new Refusal(say('cli.failed.title'), [{ where: 'passphrase', what: say('cli.user.empty') }]);
  const person = await resetPassphrase(database, name, given);
  return { json: person, text: say('cli.user.done', { name: person.name }), code: 0 };
}

/** First line of standard input; the question goes to standard error, so that the answer on standard output stays alone. */
async function askPassphrase(name: string): Promise<string> {
  const terminal = process.stdin.isTTY === true;
  const lines = createInterface({ input: process.stdin, output: terminal ? process.stderr : undefined, terminal });
  try {
    if (terminal) return await lines.question(say('cli.user.ask', { name }));
    for await (const line of lines) return line;
    return '';
  } finally {
    lines.close();
  }
}
