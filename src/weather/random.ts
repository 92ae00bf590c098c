/** A source of random numbers that a seed fixes, so that the same winters come out on every machine. */
export interface Random {
  /** Evenly spread, 0 <= x < 1. */
  readonly uniform: () => number;
  /** Normally spread, mean 0, variance 1. */
  readonly normal: () => number;
}

/**
 * The generator sfc32 (Doty-Humphrey, PractRand, 2010; public domain; from memory), seeded with one whole number. Normal numbers by the
 * polar method of Marsaglia and Bray 1964, SIAM Review 6:260-264 (from memory).
 */
export function seededRandom(seed: number): Random {
  let a = seed | 0;
  let b = Math.floor(seed / 0x1_0000_0000) | 0;
  let c = 0x9e3779b9 | 0;
  let counter = 1;
  const next = (): number => {
    const out = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + out) | 0;
    return out >>> 0;
  };
  // Seeds that differ in one bit need a few rounds to part.
  for (let i = 0; i < 20; i++) next();
  const uniform = (): number => (next() * 0x20_0000 + (next() >>> 11)) / 0x20_0000_0000_0000;
  let spare: number | undefined;
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * scale;
      return x * scale;
    }
  };
  return { uniform, normal };
}
