import module from 'node:module';
import type { RunningServer, ServerOptions } from '../server/start.ts';
import { say } from '../wording/say.ts';
import { type Outcome, UsageError } from './outcome.ts';

export interface ServeOptions {
  readonly data?: string;
  readonly port?: string;
  readonly host?: string;
  readonly database?: string;
  readonly https?: boolean;
}

/**
 * `stillwinter serve` and `stillwinter demo`: starts the server, prints its address once it answers, and stops it in good order
 * on Ctrl-C or a request of the system to end. `demo` loads the invented demonstration group when there is no group yet.
 */
export async function serveCommand(
  options: ServeOptions,
  demonstration: boolean,
  json: boolean,
): Promise<Outcome | undefined> {
  const port = options.port === undefined ? undefined : Number(options.port);
  if (port !== undefined && !(Number.isInteger(port) && port >= 0 && port <= 65_535))
    throw new UsageError(say('cli.serve.port', { port: options.port ?? '' }));
  const asked: ServerOptions = {
    demonstration,
    ...(options.data === undefined ? {} : { dataFolder: options.data }),
    ...(port === undefined ? {} : { port }),
    ...(options.host === undefined ? {} : { host: options.host }),
    ...(options.https ? { https: true } : {}),
    ...(options.database === undefined ? {} : { databaseUrl: options.database }),
  };
  const { startServer } = await import('../server/start.ts');
  const server = await startServer(asked);
  const { address } = server;
  process.stdout.write(
    json
      ? `${JSON.stringify({ address })}\n`
      : `${say(demonstration ? 'cli.demo.ready' : 'cli.serve.ready', { address })}\n`,
  );
  const open = options.host !== undefined && !/^(127\.|localhost$|::1$)/.test(options.host);
  if (open && !options.https) process.stderr.write(`${say('cli.serve.plain')}\n`);
  // What has been compiled is kept soon: a server that is killed or loses its power keeps nothing on its way out.
  setTimeout(module.flushCompileCache, 2000).unref();
  await untilAsked(server);
  return undefined;
}

function untilAsked(server: RunningServer): Promise<void> {
  return new Promise((resolve, reject) => {
    let asked = false;
    const stop = () => {
      if (asked) return;
      asked = true;
      server.stop().then(resolve, reject);
    };
    process.on('SIGINT', stop);
    process.on('SIGTERM', stop);
  });
}
