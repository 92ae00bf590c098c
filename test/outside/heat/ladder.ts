import { findModes } from '../../../src/heat/modes.ts';
import { NetworkBuilder } from '../../../src/heat/network.ts';

/**
 * A body that takes heat on one side through a film, in `n` cells: slab (per m², insulated at the other side, or one
 * half of a slab heated on both) or sphere. Returns the temperature of a cell or of the surface after a step of 1 K.
 */
export function heatedBody(body: {
  shape: 'slab' | 'sphere';
  /** Thickness of the slab or radius of the sphere, m. */
  sizeM: number;
  conductivityWmK: number;
  /** ρc, J/(m³ K). */
  heatJm3K: number;
  /** W/(m² K); Infinity for a surface held at the new temperature. */
  filmWm2K: number;
  cells?: number;
}) {
  const { shape, sizeM, conductivityWmK: k, heatJm3K, filmWm2K, cells: n = 200 } = body;
  const b = new NetworkBuilder();
  const around = b.input('around');
  const d = sizeM / n;
  // Cell 0 at the centre or insulated side; `at` is the distance of its outer face.
  const area = (x: number) => (shape === 'slab' ? 1 : 4 * Math.PI * x * x);
  const volume = (a: number, c: number) => (shape === 'slab' ? c - a : (4 / 3) * Math.PI * (c ** 3 - a ** 3));
  const way = (a: number, c: number) =>
    shape === 'slab' ? (c - a) / k : (1 / Math.max(a, d / 100) - 1 / c) / (4 * Math.PI * k);
  const nodes = Array.from({ length: n }, (_, i) => b.node(`cell ${i}`, heatJm3K * volume(i * d, (i + 1) * d)));
  for (let i = 1; i < n; i++) b.link(nodes[i - 1]!, nodes[i]!, 1 / way((i - 0.5) * d, (i + 0.5) * d));
  const surface = b.node('surface', 0);
  b.link(nodes[n - 1]!, surface, 1 / way((n - 0.5) * d, sizeM));
  b.boundary(around, surface, Number.isFinite(filmWm2K) ? filmWm2K * area(sizeM) : 1e9 * area(sizeM));
  const modes = findModes(b.build());
  const m = modes.rates.length;
  /** Share of the step not yet arrived at a node, after `s`. */
  const remaining = (node: number, s: number) => {
    let sum = 0;
    for (let i = 0; i < m; i++) {
      let z0 = 0;
      for (let j = 0; j < modes.nodeCount; j++)
        z0 += modes.projection[i * modes.nodeCount + j]! * (j === surface ? 0 : 1);
      // Start 1 everywhere, surroundings 0: what is left of it.
      sum += modes.shapes[node * m + i]! * z0 * Math.exp(-modes.rates[i]! * s);
    }
    return sum;
  };
  return {
    centre: (s: number) => remaining(nodes[0]!, s),
    surface: (s: number) => remaining(surface, s),
    mean: (s: number) =>
      nodes.reduce((sum, node, i) => sum + remaining(node, s) * volume(i * d, (i + 1) * d), 0) / volume(0, sizeM),
    atDepth: (m0: number, s: number) => {
      const x = (sizeM - m0) / d - 0.5;
      const i = Math.max(0, Math.min(n - 2, Math.floor(x)));
      const [a, c] = [remaining(nodes[i]!, s), remaining(nodes[i + 1]!, s)];
      return a + (c - a) * (x - i);
    },
    slowestS: 1 / modes.rates[0]!,
  };
}
