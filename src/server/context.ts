import type { Database } from '../records/database.ts';
import type { Scope } from '../records/entries.ts';
import type { Group } from '../schema/group.ts';
import type { Person, Role } from '../schema/person.ts';
import type { SecurityEvent } from './security-log.ts';

/** What the routes of one server share. */
export interface ServerContext {
  readonly database: Database;
  readonly nowMs: () => number;
  readonly dataFolder: string;
  /** Writes down who signed in, who was refused, and faults; absent in tests of the routes alone. */
  readonly security?: (event: SecurityEvent) => void;
  /** What listens and tells beside the screens; absent until it has started, and in tests of the routes alone. */
  outside?: {
    /** Whether the broker is connected; `undefined` when none is set up. */
    readonly broker: { readonly connected: boolean; readonly reason?: string; readonly topic: string } | undefined;
    /** The last answer of the weather service and what went wrong since; `undefined` when none is set up. */
    readonly weather: { readonly atMs?: number; readonly error?: string } | undefined;
    readonly wire: boolean;
    readonly mail: boolean;
    /** Public key that a device subscribes to push messages with. */
    readonly pushKey: string | undefined;
    /** Sends what is due now, without waiting for the clock. */
    flush(): Promise<void>;
  };
}

/** Who is asking. Without people everybody on this machine is the tutor of the present group. */
export interface Who {
  readonly peopleExist: boolean;
  readonly role: Role | undefined;
  readonly person: Person | undefined;
  readonly group: Group | undefined;
  /** Token of the session, to end it. */
  readonly token: string | undefined;
}

/** What this person may touch in the records. */
export function scopeOf(who: Who & { group: Group }, nowMs: number): Scope {
  const person = who.person;
  return {
    groupId: who.group.id,
    personId: person?.id ?? null,
    ...(person?.role === 'keeper' ? { keeperId: person.id } : {}),
    nowMs,
  };
}
