import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { killRounds } from '../../test/faults/harness.ts';

/**
 * Is everything a server acknowledged still there after it was killed with signal 9 in the middle of its writes, 200 times? One
 * JSON line; exit 1 when a record is missing or a file fails its integrity check.
 */
const ROUNDS = Number(process.argv[2] ?? 200);
const folder = mkdtempSync(join(tmpdir(), 'stillwinter-kill-'));
let state = 20_261_125;
const random = () => {
  state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
  return state / 4_294_967_296;
};
const count = await killRounds(folder, ROUNDS, random);
rmSync(folder, { recursive: true });
console.log(JSON.stringify({ name: 'kill-rounds', ...count }));
process.exit(count.lost === 0 && count.unsound === 0 ? 0 : 1);
