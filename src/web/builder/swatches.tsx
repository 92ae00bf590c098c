import type { JSX } from 'react';

/** A cut through a material, or the outline of a place, 40 by 24, drawn in the colour of its word. Decoration: the word says the same. */
const cut = (children: JSX.Element | JSX.Element[]) => (
  <>
    <rect x="0.5" y="0.5" width="39" height="23" />
    {children}
  </>
);
const at = (xs: readonly number[], ys: readonly number[], draw: (x: number, y: number, key: string) => JSX.Element) =>
  xs.flatMap((x, column) =>
    ys.map((y, row) => draw(x + (row % 2) * ((xs[1] ?? 8) - (xs[0] ?? 0)) * 0.5, y, `${column} ${row}`)),
  );

const drawings: Readonly<Record<string, JSX.Element>> = {
  // Beads pressed together.
  polystyrene: cut(at([4, 12, 20, 28], [4, 12, 20], (x, y, key) => <circle key={key} cx={x} cy={y} r="3.6" />)),
  // The same, foamed in one: fine grain.
  'extruded-polystyrene': cut(
    at([3, 8, 13, 18, 23, 28, 33], [4, 9, 14, 19], (x, y, key) => <circle key={key} cx={x} cy={y} r="0.9" />),
  ),
  'polyurethane-foam': cut(
    <path d="M5 6 q4 -4 8 0 t8 0 t8 0 t8 0 M3 14 q4 -4 8 0 t8 0 t8 0 t8 0 M6 20 q4 -4 8 0 t8 0 t8 0" />,
  ),
  // Grain of a plank, and its joint.
  softwood: cut(<path d="M0 5 C12 3 24 8 40 5 M0 10 C14 8 26 12 40 9 M0 15.5 H40 M0 20 C10 18 28 22 40 19" />),
  // Thin sheets crossed.
  plywood: cut(
    <path d="M0 5 H40 M0 10 H40 M0 15 H40 M0 20 H40 M6 5 V10 M16 5 V10 M26 5 V10 M36 5 V10 M11 15 V20 M21 15 V20 M31 15 V20" />,
  ),
  // Two faces with a wave between them.
  cardboard: cut(<path d={`M0 7 H40 M0 17 H40 M0 12 q2.5 -9 5 0 t5 0 t5 0 t5 0 t5 0 t5 0 t5 0 t5 0`} />),
  plastic: cut(<path d="M0 9 H40 M0 15 H40" />),
  air: cut([]),
  'shredded-paper': cut(
    <path d="M3 4 l9 5 -7 6 11 5 M14 3 l-2 8 10 2 -3 8 M25 4 l8 4 -9 5 12 6 M36 3 l-5 6 6 3 -8 9 M6 21 l6 -3" />,
  ),
  newspaper: cut(<path d="M0 4 H40 M0 7 H40 M0 10 H40 M0 13 H40 M0 16 H40 M0 19 H40" />),
  straw: cut(<path d="M1 20 L22 3 M6 22 L34 6 M0 9 L28 21 M12 2 L39 18 M20 22 L38 3 M2 3 L16 22" />),
  'dry-leaves': cut(
    <path d="M4 16 q5 -9 12 -3 q-7 7 -12 3 l12 -3 M18 9 q6 -8 13 -2 q-6 7 -13 2 l13 -2 M20 20 q6 -7 14 -1 q-7 6 -14 1 l14 -1" />,
  ),
  'wood-shavings': cut(
    <path d="M4 8 a4 4 0 1 1 6 3 M15 17 a4 4 0 1 1 7 2 M25 8 a4 4 0 1 1 7 2 M5 20 q4 -4 8 0 M30 20 q3 -4 7 -1" />,
  ),
  'bubble-wrap': cut(
    at([5, 14, 23], [7, 17], (x, y, key) => <path key={key} d={`M${x - 4} ${y + 2.5} a4 4.6 0 0 1 8 0 z`} />),
  ),
  'potting-soil': cut(
    <path d="M4 6 h2 M12 4 h3 M22 7 h2 M31 5 h3 M8 12 h3 M18 13 h2 M27 12 h3 M36 14 h1 M5 19 h2 M14 20 h3 M24 19 h2 M33 20 h3" />,
  ),
  // Places: what one would recognise them by.
  'brick-outbuilding': (
    <path d="M6 23.5 V9 L20 1 L34 9 V23.5 Z M6 13 H34 M6 18 H34 M13 9 V13 M22 9 V13 M29 13 V18 M10 13 V18 M15 18 V23.5 M25 18 V23.5" />
  ),
  'timber-shed': (
    <path d="M8 23.5 V8 L32 4 V23.5 Z M12 7.4 V23.5 M16 6.8 V23.5 M20 6 V23.5 M24 5.4 V23.5 M28 4.7 V23.5" />
  ),
  cellar: (
    <path d="M0 6 H40 M6 6 V23.5 H34 V6 M6 23.5 H34 M10 6 V10 H14 V14 H18 V18 H22 V23.5 M2 9 l2 2 M36 9 l2 2 M2 15 l2 2 M36 15 l2 2" />
  ),
  'unheated-room': <path d="M2 23.5 V2 H38 V23.5 Z M20 2 V23.5 M24 8 H34 V15 H24 Z M29 8 V15 M24 11.5 H34" />,
  'roof-space': <path d="M1 20 L20 2 L39 20 M6 20 H34 M6 23.5 H34 M8 20 q2 3 4 0 t4 0 t4 0 t4 0 t4 0 t4 0" />,
  greenhouse: <path d="M5 23.5 V11 L20 2 L35 11 V23.5 Z M5 11 H35 M20 2 V23.5 M12.5 6.5 V23.5 M27.5 6.5 V23.5" />,
  'cold-frame': <path d="M3 23.5 V15 L37 8 V23.5 Z M3 15 L37 8 M14 13 V23.5 M26 10.3 V23.5" />,
  'outdoor-pit': (
    <path
      d={`M0 6 H10 L13 22 H27 L30 6 H40 M8 4 H32 M12 1.5 q8 -2 16 0 M4 11 l2 2 M34 11 l2 2 M5 18 l2 2 M33 18 l2 2`}
    />
  ),
  refrigerator: <path d="M11 23.5 V1 H29 V23.5 Z M11 8 H29 M14 3.5 V6 M14 11 V15" />,
};

/** The drawing of a material or place; nothing for a word that has none. */
export function Swatch({ of }: { readonly of: string }) {
  const drawing = drawings[of];
  if (!drawing) return null;
  return (
    <svg className="swatch" viewBox="0 0 40 24" width="40" height="24" aria-hidden="true">
      {drawing}
    </svg>
  );
}
