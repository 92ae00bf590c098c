import { existsSync, mkdirSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { destination, pino } from 'pino';

/** What is written down: who did or tried what. Never a passphrase, a token, or an address with a token in it. */
export interface SecurityEvent {
  readonly what:
    | 'signed-in'
    | 'signed-out'
    | 'invited'
    | 'joined'
    | 'role-changed'
    | 'person-removed'
    | 'share-made'
    | 'share-opened'
    | 'share-revoked'
    | 'denied'
    | 'fault';
  /** Identifier of the person, or `nobody`. */
  readonly who: string;
  /** Address of the other end. */
  readonly from?: string | undefined;
  readonly method?: string;
  /** The pattern of the route, with `{id}` for what varies: never the path itself, which may hold a token. */
  readonly route?: string;
  readonly detail?: string;
  /** Identifier of the link, invitation or person it is about: never its token. */
  readonly about?: string;
}

export interface SecurityLog {
  write(event: SecurityEvent): void;
  close(): void;
}

const FILE = 'security.log';
const MOST_BYTES = 2_000_000;
const KEPT = 5;
/** Characters that wait for a disk which takes nothing; more are dropped. */
const MOST_WAITING = 500_000;

/** Keeps no log: for tests of the routes alone. */
export const NO_LOG: SecurityLog = { write: () => {}, close: () => {} };

/**
 * Writes one line of JSON for each event to `logs/security.log` in the data folder, times in UTC. A file that has grown past 2 MB is set
 * aside; five are kept. JSON escapes line breaks, so that nothing a stranger sends can begin a line of its own.
 */
export function openSecurityLog(dataFolder: string, nowMs: () => number, mostBytes = MOST_BYTES): SecurityLog {
  const folder = join(dataFolder, 'logs');
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const file = join(folder, FILE);
  let size = existsSync(file) ? statSync(file).size : 0;
  const opened = () => {
    const made = destination({ dest: file, sync: true, mode: 0o600, maxLength: MOST_WAITING });
    // What a full disk does not take waits in memory for the next line.
    made.on('error', () => {});
    return made;
  };
  let out = opened();
  const make = () =>
    pino(
      {
        base: null,
        timestamp: () => `,"time":"${new Date(nowMs()).toISOString()}"`,
        formatters: { level: (level) => ({ level }) },
      },
      {
        write: (line: string) => {
          size += Buffer.byteLength(line);
          out.write(line);
        },
      },
    );
  const log = make();
  const rotate = () => {
    out.end();
    for (let i = KEPT - 1; i >= 1; i--) if (existsSync(`${file}.${i}`)) renameSync(`${file}.${i}`, `${file}.${i + 1}`);
    renameSync(file, `${file}.1`);
    out = opened();
    size = 0;
  };
  return {
    write: (event) => {
      try {
        if (size >= mostBytes) rotate();
        log.info({ ...event, ...(event.detail === undefined ? {} : { detail: plain(event.detail) }) });
      } catch {
        // A full disk must not keep a keeper from reading the records.
      }
    },
    close: () => {
      try {
        out.end();
      } catch {
        // What the disk still does not take is lost with the process.
      }
    },
  };
}

/** Short, and without what moves the cursor of a terminal. */
const plain = (text: string): string => text.replaceAll(/\p{Cc}|\p{Cf}/gu, ' ').slice(0, 300);
