import { createRequire } from 'node:module';

type Derivative = (x: number, y: number[]) => number[];
interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(f: Derivative, x: number, y0: number[], xEnd: number): { y: number[] };
}

// Loaded at run time: the package carries its own TypeScript source, which does not pass our compiler settings.
const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (size: number) => OdexSolver };

/** Independent solution of y' = f(x, y) from `x0` to `x1` by extrapolation with adaptive steps (Hairer and Wanner's ODEX). */
export function solveAdaptively(
  f: Derivative,
  x0: number,
  y0: readonly number[],
  x1: number,
  tolerance = 1e-10,
): number[] {
  const solver = new Solver(y0.length);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.maxSteps = 1_000_000;
  return solver.solve(f, x0, [...y0], x1).y;
}
