import type { Transaction } from 'kysely';
import { v7 as uuidv7 } from 'uuid';
import type { Database } from '../records/database.ts';
import { RecordProblem } from '../records/problem.ts';
import type { Scope } from '../records/scope.ts';
import type { PersonRow, Tables } from '../records/tables.ts';
import type { Person, Role } from '../schema/person.ts';
import { say } from '../wording/say.ts';
import { checkNobody, hashPassphrase, passphraseFits, refuseWeak } from './passphrase.ts';
import { newToken, tokenHash } from './tokens.ts';

const INVITATION_MS = 7 * 86_400_000;

export const personOf = (row: PersonRow): Person => ({
  id: row.id,
  name: row.name,
  signInName: row.signInName,
  role: row.role,
});

const present = (database: Database) =>
  database.kysely.selectFrom('people').selectAll().where('removedAtMs', 'is', null);

export async function peopleExist(database: Database): Promise<boolean> {
  return (await present(database).limit(1).executeTakeFirst()) !== undefined;
}

export async function listPeople(database: Database, groupId: string): Promise<Person[]> {
  const rows = await present(database).where('groupId', '=', groupId).orderBy('name').execute();
  return rows.map(personOf);
}

/** Who a new person is; the passphrase is not kept. */
export interface NewPerson {
  readonly id: string;
  readonly name: string;
  readonly signInName: string;
  readonly passphrase: string;
}

/** Sets up the first person, who becomes the tutor. Throws RecordProblem when somebody is there already. */
export async function setUpFirst(
  database: Database,
  groupId: string,
  person: NewPerson,
  nowMs: number,
): Promise<Person> {
  const row = await newRow(groupId, person, 'tutor', nowMs);
  await database.kysely.transaction().execute(async (transaction) => {
    const someone = await transaction
      .selectFrom('people')
      .select('id')
      .where('removedAtMs', 'is', null)
      .executeTakeFirst();
    if (someone) throw new RecordProblem('not-allowed', say('access.alreadySetUp'));
    await transaction.insertInto('people').values(row).execute();
  });
  return personOf(row);
}

async function newRow(groupId: string, person: NewPerson, role: Role, nowMs: number): Promise<PersonRow> {
  refuseWeak(person.passphrase, [person.name, person.signInName, 'stillwinter']);
  return {
    id: person.id,
    groupId,
    name: person.name,
    signInName: plainName(person.signInName),
    role,
    passphraseHash: await hashPassphrase(person.passphrase),
    createdAtMs: nowMs,
    removedAtMs: null,
  };
}

/** Capitals and spaces around a name to sign in with do not matter. */
const plainName = (name: string): string => name.trim().toLowerCase();

/** The person of a name and passphrase, or undefined; both mistakes take the same time. */
export async function personBySignIn(
  database: Database,
  signInName: string,
  passphrase: string,
): Promise<PersonRow | undefined> {
  const row = await present(database).where('signInName', '=', plainName(signInName)).executeTakeFirst();
  if (!row) {
    await checkNobody(passphrase);
    return undefined;
  }
  return (await passphraseFits(row.passphraseHash, passphrase)) ? row : undefined;
}

/** Makes an invitation that holds for a week and can be used once. The token is told only here. */
export async function invite(
  database: Database,
  asked: {
    id: string;
    groupId: string;
    role: Role;
    animalIds: readonly string[];
    by: string | null;
    nowMs: number;
  },
): Promise<{ token: string; untilMs: number }> {
  const token = newToken();
  const untilMs = asked.nowMs + INVITATION_MS;
  await database.kysely
    .insertInto('invitations')
    .values({
      id: asked.id,
      groupId: asked.groupId,
      tokenHash: tokenHash(token),
      role: asked.role,
      animalIds: JSON.stringify(asked.animalIds),
      invitedBy: asked.by,
      untilMs,
      usedAtMs: null,
    })
    .execute();
  return { token, untilMs };
}

/** Takes up an invitation: the person joins the group with the role named, and keeps the animals named. */
export async function join(database: Database, token: string, person: NewPerson, nowMs: number): Promise<PersonRow> {
  const found = await openInvitation(database, token, nowMs);
  const row = await newRow(found.groupId, person, found.role, nowMs);
  await database.kysely.transaction().execute(async (transaction) => {
    const used = await transaction
      .updateTable('invitations')
      .set({ usedAtMs: nowMs })
      .where('id', '=', found.id)
      .where('usedAtMs', 'is', null)
      .executeTakeFirst();
    if (Number(used.numUpdatedRows) !== 1) throw new RecordProblem('not-found', say('access.invitationGone'));
    const taken = await transaction
      .selectFrom('people')
      .select('id')
      .where('signInName', '=', row.signInName)
      .executeTakeFirst();
    if (taken) {
      const what = say('access.nameTaken');
      throw new RecordProblem('invalid', what, [{ where: 'signInName', what }]);
    }
    await transaction.insertInto('people').values(row).execute();
    for (const animalId of JSON.parse(found.animalIds) as string[])
      await transaction
        .updateTable('animals')
        .set({ keeperId: row.id })
        .where('id', '=', animalId)
        .where('groupId', '=', found.groupId)
        .execute();
  });
  return row;
}

async function openInvitation(database: Database, token: string, nowMs: number) {
  const found = await database.kysely
    .selectFrom('invitations')
    .selectAll()
    .where('tokenHash', '=', tokenHash(token))
    .where('usedAtMs', 'is', null)
    .where('untilMs', '>', nowMs)
    .executeTakeFirst();
  if (!found) throw new RecordProblem('not-found', say('access.invitationGone'));
  return found;
}

/**
 * Gives a person another role. Their sessions go on with it at once, for each request asks anew. Invitations that a tutor made and nobody took
 * up end with that role. The last tutor stays one: a group without one could never be opened again.
 */
export async function changeRole(database: Database, scope: Scope, id: string, role: Role): Promise<Person> {
  return database.kysely.transaction().execute(async (transaction) => {
    const person = await notTheLastTutor(database, transaction, scope.groupId, id, role);
    if (person.role === role) return personOf(person);
    await transaction.updateTable('people').set({ role }).where('id', '=', id).execute();
    if (person.role === 'tutor') await endInvitations(transaction, id);
    const earlier = await transaction
      .selectFrom('changes')
      .select((e) => e.fn.countAll().as('count'))
      .where('recordId', '=', id)
      .executeTakeFirstOrThrow();
    await transaction
      .insertInto('changes')
      .values({
        id: uuidv7(),
        groupId: scope.groupId,
        kind: 'person',
        recordId: id,
        revision: Number(earlier.count) + 1,
        action: 'changed',
        byPerson: scope.personId,
        atMs: scope.nowMs,
        before: JSON.stringify({ role: person.role }),
        after: JSON.stringify({ role }),
      })
      .execute();
    return personOf({ ...person, role });
  });
}

const endInvitations = (transaction: Transaction<Tables>, invitedBy: string) =>
  transaction.deleteFrom('invitations').where('invitedBy', '=', invitedBy).where('usedAtMs', 'is', null).execute();

/** The person of the group, unless they are its only tutor and are to be something else (or nothing at all). */
async function notTheLastTutor(
  database: Database,
  transaction: Transaction<Tables>,
  groupId: string,
  id: string,
  becomes?: Role,
): Promise<PersonRow> {
  const people = await transaction
    .selectFrom('people')
    .selectAll()
    .where('groupId', '=', groupId)
    .where('removedAtMs', 'is', null)
    // Two tutors who step each other down at the same time wait for one another; SQLite has one writer anyway.
    .$if(database.kind === 'postgres', (query) => query.forUpdate())
    .execute();
  const person = people.find((row) => row.id === id);
  if (!person) throw new RecordProblem('not-found', say('records.notFound'));
  const tutors = people.filter((row) => row.role === 'tutor');
  if (person.role === 'tutor' && becomes !== 'tutor' && tutors.length === 1)
    throw new RecordProblem('not-allowed', say('access.lastTutor'));
  return person;
}

/** Removes a person and ends all their sessions. The last tutor stays: a group without one could never be opened again. */
export async function removePerson(database: Database, groupId: string, id: string, nowMs: number): Promise<void> {
  await database.kysely.transaction().execute(async (transaction) => {
    const person = await notTheLastTutor(database, transaction, groupId, id);
    await endInvitations(transaction, id);
    await transaction
      .updateTable('people')
      // The name becomes free again; the row stays for the audit trail.
      .set({ removedAtMs: nowMs, signInName: `${person.signInName} (removed ${nowMs})` })
      .where('id', '=', id)
      .execute();
    await transaction.deleteFrom('sessions').where('personId', '=', id).execute();
  });
}

/** Sets a new passphrase and ends every session of the person. Used by the person themselves and by the local reset. */
export async function setPassphrase(database: Database, personId: string, passphrase: string): Promise<void> {
  const row = await present(database).where('id', '=', personId).executeTakeFirst();
  if (!row) throw new RecordProblem('not-found', say('records.notFound'));
  refuseWeak(passphrase, [row.name, row.signInName, 'stillwinter']);
  const passphraseHash = await hashPassphrase(passphrase);
  await database.kysely.transaction().execute(async (transaction) => {
    await transaction.updateTable('people').set({ passphraseHash }).where('id', '=', personId).execute();
    await transaction.deleteFrom('sessions').where('personId', '=', personId).execute();
  });
}

/** Resets a forgotten passphrase by the name to sign in with, from the machine itself. */
export async function resetPassphrase(database: Database, signInName: string, passphrase: string): Promise<Person> {
  const row = await present(database).where('signInName', '=', plainName(signInName)).executeTakeFirst();
  if (!row) throw new RecordProblem('not-found', say('access.nobody', { name: signInName }));
  await setPassphrase(database, row.id, passphrase);
  return personOf(row);
}
