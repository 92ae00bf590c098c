import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const bin = fileURLToPath(new URL('../../bin/stillwinter.mjs', import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command as a person would, with `input` on standard input. */
export function stillwinter(args: readonly string[], input = '', env: Record<string, string> = {}): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin, ...args], { env: { ...process.env, ...env } });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
    // A command that refuses its arguments never reads its input.
    child.stdin.on('error', () => undefined);
    child.stdin.end(input);
  });
}

/** The same with `--json`: the one document on standard output beside the exit code. */
export async function stillwinterJson(args: readonly string[], input = ''): Promise<Ran & { readonly json: unknown }> {
  const ran = await stillwinter([...args, '--json'], input);
  return { ...ran, json: JSON.parse(ran.stdout) };
}
