import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { join, resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { serve } from '@hono/node-server';
import { peopleExist } from '../access/people.ts';
import { backupFolder, newestGoodBackup } from '../records/backup.ts';
import { type Database, isDamage, openDatabase } from '../records/database.ts';
import { RecordProblem } from '../records/problem.ts';
import { say } from '../wording/say.ts';
import { createApp } from './app.ts';
import { type Care, damagedSentence, takeCare } from './care.ts';
import { certificateFiles } from './certificate-files.ts';
import type { ServerContext } from './context.ts';
import { lockFolder } from './folder-lock.ts';
import { type OutsideSettings, outsideSettings, startOutside } from './outside.ts';
import { Refusal } from './problem-answers.ts';
import { NO_LOG, openSecurityLog, type SecurityLog } from './security-log.ts';

/** How a server is started. Everything has a default, so that `startServer({})` serves the usual data folder. */
export interface ServerOptions {
  /** Folder of the database, backups and photographs. Default: `STILLWINTER_DATA`, else `data` in the working folder. */
  readonly dataFolder?: string;
  /** Port; 0 lets the system choose. Default: `STILLWINTER_PORT`, else 8190. */
  readonly port?: number;
  /** Address to listen on. Anything but loopback is refused until a person with a passphrase exists. Default 127.0.0.1. */
  readonly host?: string;
  /** PostgreSQL address. Default: `STILLWINTER_DATABASE_URL`, else SQLite in the data folder. */
  readonly databaseUrl?: string;
  /** Loads the invented demonstration group when the database holds no group yet. Default false. */
  readonly demonstration?: boolean;
  /** Clock, epoch ms: for tests. Default the machine's clock. */
  readonly nowMs?: () => number;
  /** Speaks HTTPS with the certificate that `stillwinter certificate` made in the data folder. Default false. */
  readonly https?: boolean;
  /** Folder of the built screens. Default `dist/web` of the checkout. */
  readonly webFolder?: string;
  /** What the server listens to and whom it tells. Default: from the environment. */
  readonly outside?: OutsideSettings;
  /** Hears of faults. Default: one line each on standard error. */
  readonly onFault?: (error: unknown) => void;
}

export interface RunningServer {
  readonly host: string;
  readonly port: number;
  /** `http://127.0.0.1:PORT` */
  readonly address: string;
  /** Answers what is under way, closes the database, then resolves. */
  stop(): Promise<void>;
}

const DEFAULT_PORT = 8190;
const START_AGAIN_MS = 10_000;
const LOOPBACK_HOSTS = new Set(['127.0.0.1', 'localhost', '::1']);

/**
 * Starts the server and resolves once it answers. Prints nothing: whoever started it says so. Throws RecordProblem when the
 * folder is in use or the database cannot be opened, and touches nothing then.
 */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const dataFolder = resolve(options.dataFolder ?? process.env.STILLWINTER_DATA ?? 'data');
  const databaseUrl = options.databaseUrl ?? (process.env.STILLWINTER_DATABASE_URL || undefined);
  const host = options.host ?? '127.0.0.1';
  const nowMs = options.nowMs ?? Date.now;
  const unlock = databaseUrl ? () => {} : lockFolder(dataFolder);
  let database: Database | undefined;
  let care: Care | undefined;
  let security: SecurityLog | undefined;
  try {
    database = await opened(dataFolder, databaseUrl);
    if (options.demonstration) await (await import('../records/demo/story.ts')).loadDemonstration(database, nowMs());
    if (!LOOPBACK_HOSTS.has(host) && !(await peopleExist(database)))
      throw new Refusal('not-allowed', say('server.problem.loopback-only'));
    const outsides = options.outside ?? outsideSettings(process.env);
    const onFault = options.onFault ?? ((error: unknown) => console.error(error));
    care = takeCare(database, dataFolder, nowMs, onFault);
    const log =
      databaseUrl && options.dataFolder === undefined && !process.env.STILLWINTER_DATA
        ? NO_LOG
        : openSecurityLog(dataFolder, nowMs);
    security = log;
    const context: ServerContext = { database, nowMs, dataFolder, security: log.write };
    const app = createApp({
      context,
      care,
      webFolder: options.webFolder ?? join(import.meta.dirname, '..', '..', 'dist', 'web'),
      hosts: (process.env.STILLWINTER_HOSTS ?? '').split(',').filter((name) => name !== ''),
      onFault,
    });
    const port = options.port ?? Number(process.env.STILLWINTER_PORT || DEFAULT_PORT);
    const { server, address } = await listening(
      app.fetch,
      host,
      port,
      options.https ? tlsFiles(dataFolder) : undefined,
    );
    const [open, cared] = [database, care];
    // The screens answer while the watch is still being taken up.
    const given = new AbortController();
    const outside = untilStarted(() => startOutside(open, outsides, nowMs, onFault), onFault, given.signal);
    void outside.then((started) => {
      if (started) context.outside = started.state;
    });
    return {
      host,
      port: address.port,
      address: `${options.https ? 'https' : 'http'}://127.0.0.1:${address.port}`,
      stop: async () => {
        await new Promise<void>((done) => {
          server.close(() => done());
          if ('closeIdleConnections' in server) server.closeIdleConnections();
          // Answers under way get a moment; a browser that keeps a connection open must not keep the process.
          if ('closeAllConnections' in server) setTimeout(() => server.closeAllConnections(), 500).unref();
        });
        await cared.stop();
        given.abort();
        await (await outside)?.stop();
        await open.close();
        log.close();
        unlock();
      },
    };
  } catch (error) {
    await care?.stop();
    await database?.close();
    security?.close();
    unlock();
    throw error;
  }
}

/** Opens the database; a damaged file is refused with the name of the newest good backup. */
async function opened(dataFolder: string, databaseUrl: string | undefined): Promise<Database> {
  try {
    return await openDatabase({ dataFolder, databaseUrl });
  } catch (error) {
    const damaged = isDamage(error) || (error instanceof RecordProblem && error.type === 'database-damaged');
    if (!damaged) throw error;
    throw new RecordProblem('database-damaged', damagedSentence(newestGoodBackup(backupFolder(dataFolder))?.file));
  }
}

/** Starts again after a while when a start fails: a disk or a database that is away must not end the watch for good. */
async function untilStarted<T>(
  start: () => Promise<T>,
  onFault: (error: unknown) => void,
  given: AbortSignal,
): Promise<T | undefined> {
  while (!given.aborted) {
    try {
      return await start();
    } catch (error) {
      onFault(error);
      await pause(START_AGAIN_MS, undefined, { signal: given }).catch(() => {});
    }
  }
  return undefined;
}

/** The certificate and key of local HTTPS; throws Refusal where there are none yet. */
function tlsFiles(dataFolder: string): { cert: Buffer; key: Buffer } {
  const files = certificateFiles(dataFolder);
  if (!existsSync(files.certificate) || !existsSync(files.key))
    throw new Refusal('not-found', say('server.problem.no-certificate'));
  return { cert: readFileSync(files.certificate), key: readFileSync(files.key) };
}

function listening(
  fetch: Parameters<typeof serve>[0]['fetch'],
  hostname: string,
  port: number,
  tls?: { cert: Buffer; key: Buffer },
) {
  return new Promise<{ server: ReturnType<typeof serve>; address: AddressInfo }>((done, failed) => {
    const secure = tls ? { createServer, serverOptions: { ...tls, minVersion: 'TLSv1.2' as const } } : {};
    const server = serve({ fetch, hostname, port, ...secure }, (address) =>
      done({ server, address: address as AddressInfo }),
    );
    server.once('error', failed);
  });
}
