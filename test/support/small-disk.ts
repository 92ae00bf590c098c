import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A real disk of its own, seen by whatever is started through `enter` and by nobody else; it is gone when it is stopped or the tests end. */
export interface SmallDisk {
  /** Where it is mounted, for commands started through `enter`. */
  readonly folder: string;
  /** What stands before a command that is to see the disk. */
  readonly enter: readonly string[];
  /** A file of the disk as this process sees it. */
  seen(...path: string[]): string;
  /** Mounts it anew with these options. Throws what `mount` says. */
  remount(options: string): void;
  stop(): Promise<void>;
}

/**
 * Mounts a disk in a mount namespace of its own: as root, else as root of a user namespace where the system lets anybody make one. Returns
 * the reason where neither is allowed.
 * `memory` is tmpfs; `ext4` lies in a file and needs the real root.
 */
export async function smallDisk(kind: 'memory' | 'ext4', sizeKb: number): Promise<SmallDisk | string> {
  if (process.platform !== 'linux') return 'a disk of its own is mounted on Linux only';
  const root = process.getuid?.() === 0;
  if (kind === 'ext4' && !root) return 'a disk in a file is mounted by root only';
  const base = mkdtempSync(join(tmpdir(), 'stillwinter-disk-'));
  const folder = join(base, 'disk');
  mkdirSync(folder);
  const image = join(base, 'image');
  const mount =
    kind === 'memory'
      ? `mount -t tmpfs -o size=${sizeKb}k,mode=700 stillwinter ${folder}`
      : `truncate -s ${sizeKb}K ${image} && mkfs.ext4 -q -F ${image} && mount -o loop ${image} ${folder}`;
  const reasons: string[] = [];
  for (const [own, into] of [
    ...(root ? [[['-m'], ['-m']]] : []),
    [
      ['-U', '-r', '-m'],
      ['-U', '-m', '--preserve-credentials'],
    ],
  ] as const) {
    // It holds the namespace for as long as our end of its input is open.
    const holder = spawn('unshare', [
      ...own,
      '--propagation',
      'private',
      'sh',
      '-c',
      `${mount} && echo ready && exec cat`,
    ]);
    const reason = await begun(holder);
    if (reason === undefined) {
      const enter = ['nsenter', '-t', String(holder.pid), ...into, '--'];
      return {
        folder,
        enter,
        seen: (...path) => join(`/proc/${holder.pid}/root${folder}`, ...path),
        remount(options) {
          const [command, ...rest] = [
            ...enter,
            'mount',
            '--options-mode',
            'ignore',
            '-o',
            `remount,${options}`,
            folder,
          ];
          const { status, stderr } = spawnSync(command!, rest, { encoding: 'utf8' });
          if (status !== 0) throw new Error(stderr);
        },
        async stop() {
          const gone = once(holder, 'exit');
          holder.stdin.end();
          await gone;
          rmSync(base, { recursive: true });
        },
      };
    }
    reasons.push(reason);
  }
  rmSync(base, { recursive: true });
  return `no disk may be mounted here: ${reasons.join('; ')}`;
}

/** What kept the disk from being mounted, or nothing. */
async function begun(holder: ChildProcess): Promise<string | undefined> {
  let said = '';
  holder.stderr!.on('data', (chunk) => {
    said += chunk;
  });
  return new Promise((done) => {
    holder.stdout!.once('data', () => done(undefined));
    holder.once('error', (error) => done(error.message));
    holder.once('exit', (code) => done(said.trim() || `it ended with ${code}`));
  });
}
