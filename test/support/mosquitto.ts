import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir, userInfo } from 'node:os';
import { delimiter, join } from 'node:path';
import mqtt from 'mqtt';
import type { TestBroker } from './broker.ts';

/** Where Mosquitto is on this machine; `undefined` when it is not installed. */
const program = (): string | undefined =>
  [...(process.env.PATH ?? '').split(delimiter), '/usr/sbin', '/usr/local/sbin']
    .map((folder) => join(folder, 'mosquitto'))
    .find((path) => existsSync(path));

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  server.close();
  await once(server, 'close');
  return port;
}

export interface OwnBroker extends TestBroker {
  /** Ends it with signal 9. */
  kill(): Promise<void>;
  /** Starts it on the same port, with what it had on its disk. */
  again(): Promise<void>;
}

/**
 * A Mosquitto of our own on a free port, with these lines added to its settings and everything else as it comes; sessions are kept on the
 * disk. `undefined` when it is not installed.
 */
export async function startMosquitto(lines: readonly string[]): Promise<OwnBroker | undefined> {
  const path = program();
  if (path === undefined) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'stillwinter-broker-'));
  const port = await freePort();
  const settings = [
    `listener ${port} 127.0.0.1`,
    'allow_anonymous true',
    `user ${userInfo().username}`,
    'persistence true',
    `persistence_location ${folder}/`,
    'log_dest none',
    ...lines,
  ];
  writeFileSync(join(folder, 'broker.conf'), `${settings.join('\n')}\n`);
  const url = `mqtt://127.0.0.1:${port}`;
  let child: ChildProcess;
  const stop = () => {
    child.once('exit', () => rmSync(folder, { recursive: true, force: true }));
    child.kill();
  };
  const kill = async () => {
    const gone = once(child, 'exit');
    child.kill('SIGKILL');
    await gone;
  };
  const again = async () => {
    child = spawn(path, ['-c', join(folder, 'broker.conf')], { stdio: 'ignore' });
    for (let tries = 0; ; tries += 1) {
      try {
        const probe = await mqtt.connectAsync(url, { connectTimeout: 1000, reconnectPeriod: 0 }, false);
        await probe.endAsync();
        return;
      } catch (error) {
        if (child.exitCode === null && tries < 50) await new Promise((done) => setTimeout(done, 100));
        else {
          stop();
          throw error;
        }
      }
    }
  };
  await again();
  return { url, name: 'Mosquitto', stop, kill, again };
}
