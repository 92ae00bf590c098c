import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Runs a peer that may not be on this machine: it reads `input` and prints numbers on its last line. Undefined where it cannot run. */
export function outsidePeer(command: string, file: string, input: string): number[] | undefined {
  const path = fileURLToPath(new URL(file, import.meta.url));
  const result = spawnSync(command, [path], { input, encoding: 'utf8', timeout: 120_000, maxBuffer: 1e7 });
  const numbers = (result.stdout?.trim().split('\n').pop() ?? '').split(/\s+/).map(Number);
  return result.status === 0 && numbers[0]! > 0 ? numbers : undefined;
}

/** What a row says of a peer that cannot run here. */
export const skippedPeer = (command: string) => `skipped: ${command} with its package is not on this machine`;
