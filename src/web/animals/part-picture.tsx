import type { ExaminationPart } from '../../tortoise/types.ts';

/** Where on the drawing each part is looked for: centre and radius of the ring. */
const rings: Record<ExaminationPart, readonly [number, number, number]> = {
  eyes: [129, 41, 7],
  nose: [139, 44, 6],
  mouth: [136, 50, 7],
  limbs: [107, 68, 13],
  shell: [66, 34, 25],
  tail: [15, 62, 9],
  breathing: [116, 54, 11],
  droppings: [16, 76, 10],
};

/** A tortoise from the side in a few lines, with a ring round the part to look at. Drawn for this product. */
export function PartPicture({ part }: { readonly part: ExaminationPart }) {
  const [x, y, r] = rings[part];
  return (
    <svg className="part-picture" viewBox="0 0 150 88" width="150" height="88" aria-hidden="true">
      <path className="pic-line" d="M18 60C20 28 44 12 68 12s46 16 50 46c-12 6-88 8-100 2Z" />
      <path className="pic-thin" d="M30 36l20 6 10-28M50 42l2 20M50 42l32 0 12-24M82 42l4 20M82 42l28-8" />
      <path className="pic-line" d="M112 56c2-14 10-20 20-20 8 0 12 6 10 12-1 5-6 6-12 6-3 4-8 8-14 8" />
      <path className="pic-thin" d="M134 51h8" />
      <circle className="pic-dot" cx="131" cy="41" r="1.8" />
      <path className="pic-line" d="M98 62c2 8 6 14 4 18h14c0-8-2-14-6-20M30 62c-4 8-6 14-4 18h14c2-8 2-12 2-17" />
      <path className="pic-line" d="M19 58c-5 2-8 4-10 8 4 0 8-1 11-4" />
      <path className="pic-thin" d="M0 80h148" />
      {part === 'droppings' ? <path className="pic-line" d="M12 79c0-4 8-4 8 0" /> : null}
      <circle className="pic-ring" cx={x} cy={y} r={r} />
    </svg>
  );
}
