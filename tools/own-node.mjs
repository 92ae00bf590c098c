// Shared by the two commands: install what the lock file says when it is missing, and run things on the project's own Node.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));
const windows = process.platform === 'win32';
export const node = join(root, 'node_modules', 'node', 'bin', windows ? 'node.exe' : 'node');

/** Installs the packages of the lock file unless they are already there and not older than the lock file. */
export function ensureInstalled() {
  const stamp = join(root, 'node_modules', '.package-lock.json');
  const lock = join(root, 'package-lock.json');
  if (existsSync(node) && existsSync(stamp) && statSync(stamp).mtimeMs >= statSync(lock).mtimeMs - 1000) return;
  if (existsSync(node) && existsSync(stamp) && sameVersions(stamp, lock)) return;
  console.log('Installing the packages named in package-lock.json ...');
  const run = spawnSync('npm', ['ci', '--no-fund', '--no-audit', '--loglevel=error'], {
    cwd: root,
    stdio: 'inherit',
    shell: windows,
  });
  if (run.status !== 0) {
    console.error(
      'npm ci failed (see above). Stillwinter needs the package registry once, to install. Nothing was started.',
    );
    process.exit(run.status ?? 1);
  }
}

// The stamp lists what is installed; after a fresh checkout only the time stamps differ.
function sameVersions(stamp, lock) {
  const versions = (file) => {
    const packages = JSON.parse(readFileSync(file, 'utf8')).packages ?? {};
    return new Map(
      Object.entries(packages)
        .filter(([path]) => path !== '')
        .map(([path, p]) => [path, p.version]),
    );
  };
  const wanted = versions(lock);
  return [...versions(stamp)].every(([path, version]) => wanted.get(path) === version);
}

export function withOwnNode(extra = {}) {
  return {
    ...process.env,
    PATH: dirname(node) + delimiter + join(root, 'node_modules', '.bin') + delimiter + (process.env.PATH ?? ''),
    ...extra,
  };
}

/** Runs one of the installed tools on the project's own Node and resolves with its exit code. */
export function run(script, args, options = {}) {
  return new Promise((resolve) => {
    const child = spawn(node, [join(root, script), ...args], {
      cwd: root,
      stdio: 'inherit',
      env: withOwnNode(),
      ...options,
    });
    const pass = (signal) => child.kill(signal);
    process.on('SIGINT', pass);
    process.on('SIGTERM', pass);
    child.on('exit', (code, signal) => {
      process.off('SIGINT', pass);
      process.off('SIGTERM', pass);
      resolve(code ?? (signal ? 1 : 0));
    });
  });
}
