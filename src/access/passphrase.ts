import { RecordProblem } from '../records/problem.ts';
import { say } from '../wording/say.ts';
import { COMMON_PASSPHRASES } from './common-passphrases.ts';

/** Argon2id (the library's default), 46 MiB, two passes: above the OWASP Password Storage Cheat Sheet's 19 MiB and two passes (read 2026). */
const PARAMETERS = { memoryCost: 47_104, timeCost: 2, parallelism: 1 } as const;
/** Hashes at once; more wait, so that a flood of sign-ins cannot take all memory. */
const AT_ONCE = 2;

let running = 0;
const waiting: (() => void)[] = [];

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (running >= AT_ONCE) await new Promise<void>((go) => waiting.push(go));
  running += 1;
  try {
    return await work();
  } finally {
    running -= 1;
    waiting.shift()?.();
  }
}

// Loaded with the first passphrase: most hours of a server see none.
const argon2 = () => import('@node-rs/argon2');

export const hashPassphrase = (passphrase: string): Promise<string> =>
  inTurn(async () => (await argon2()).hash(passphrase, PARAMETERS));

export const passphraseFits = (stored: string, passphrase: string): Promise<boolean> =>
  inTurn(async () => (await argon2()).verify(stored, passphrase));

let nobody: Promise<string> | undefined;

/** Takes as long as a real check, so that the answer's delay does not tell whether the name exists. */
export async function checkNobody(passphrase: string): Promise<void> {
  nobody ??= hashPassphrase('nobody has this passphrase');
  await passphraseFits(await nobody, passphrase);
}

/** Refuses what a stranger would try first: common passphrases, one thing repeated, or the names the place itself gives away. */
export function refuseWeak(passphrase: string, names: readonly string[]): void {
  const plain = passphrase.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
  const repeated = /^(.{1,4})\1+$/u.test(plain);
  const given = names.some(
    (name) => plain.replace(name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '') || plain, '').length < 6,
  );
  if (plain.length < 6 || repeated || given || COMMON_PASSPHRASES.has(plain))
    throw new RecordProblem('invalid', say('access.weak'), [{ where: 'passphrase', what: say('access.weak') }]);
}
