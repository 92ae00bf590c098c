import type { ReactNode } from 'react';
import type { ExaminationPart } from '../../tortoise/types.ts';

const HEAD =
  'M4 42C24 30 44 22 72 20c36-2 68 8 82 30 6 9 5 17-1 22-22-2-40-1-56 4M153 72c-22 8-50 8-70 17-16 9-44 14-79 15';
const drops = (x: number, y: number) => (
  <path
    className="pic-mark"
    d={`M${x} ${y}c-3 6-3 9 0 10 3-1 3-4 0-10ZM${x + 9} ${y + 9}c-3 6-3 9 0 10 3-1 3-4 0-10Z`}
  />
);
const bubbles = (x: number, y: number) => (
  <g className="pic-mark">
    <circle cx={x} cy={y} r="5" />
    <circle cx={x + 9} cy={y + 5} r="3.5" />
    <circle cx={x + 3} cy={y + 11} r="2.5" />
  </g>
);
const hatch = (x: number, y: number, w: number, h: number) => (
  <path
    className="pic-mark"
    d={Array.from({ length: Math.floor(w / 6) }, (_, i) => `M${x + i * 6} ${y + h}l6 ${-h}`).join('')}
  />
);
const eye = (
  <>
    <path className="pic-line" d="M98 48c6-12 24-12 30 0-6 11-24 11-30 0Z" />
    <circle className="pic-dot" cx="113" cy="48" r="6" />
    <circle className="pic-light" cx="115" cy="46" r="1.8" />
  </>
);
const smallEye = <circle className="pic-dot" cx="112" cy="46" r="4" />;
const head = (
  <>
    <path className="pic-line" d={HEAD} />
    <path className="pic-thin" d="M20 52c8 8 8 26 2 40M44 40c8 10 8 30 2 52M66 62c6-6 12-8 18-8" />
  </>
);
const openMouth = (
  <>
    <path
      className="pic-line"
      d="M4 36C24 24 44 16 72 14c36-2 68 6 80 26 5 9 5 15 1 20-20-5-42-4-60 6 18 6 36 14 46 26-20 12-44 8-58 4-22 6-44 10-77 10"
    />
    <path className="pic-thin" d="M98 68c12-2 22 4 32 16M20 46c8 8 8 26 2 44" />
    <circle className="pic-dot" cx="112" cy="38" r="4" />
    <circle className="pic-dot" cx="147" cy="44" r="1.6" />
  </>
);
const leg = (
  <>
    <path
      className="pic-line"
      d="M14 18c30-10 60-6 84 8 14 10 22 26 26 48l6 26c-12 8-34 8-44 2-2-18-8-32-20-38-18-8-36-8-52-4"
    />
    <path className="pic-line" d="M88 102l-3 10M100 106v9M113 105l2 9M125 102l5 8" />
    <path
      className="pic-thin"
      d="M52 26c6 3 8 8 8 13M70 28c6 4 8 10 8 16M88 36c4 6 4 12 2 18M100 50c4 7 3 13 0 18M108 66c4 6 4 12 0 17"
    />
  </>
);
const shell = (
  <>
    <path className="pic-line" d="M12 96C12 44 48 14 90 14s78 30 78 82c-24 12-132 12-156 0Z" />
    <path
      className="pic-thin"
      d="M60 22l12 26h36l12-26M72 48l-12 32 30 10 30-10-12-32M60 80l-38-4M120 80l38-4M72 48L30 50M108 48l42 2M90 90v14"
    />
  </>
);
const tail = (
  <>
    <path className="pic-line" d="M10 52C20 20 54 8 90 8s70 12 80 44" />
    <path className="pic-line" d="M10 52c14-4 30-2 44 6M170 52c-14-4-30-2-44 6" />
    <path className="pic-line" d="M54 58c14 2 22 2 22 10 0 14 2 28 14 42 12-14 14-28 14-42 0-8 8-8 22-10" />
    <path className="pic-line" d="M83 74c4 5 10 5 14 0" />
    <path className="pic-thin" d="M40 24l8 30M90 8v46M140 24l-8 30M80 86h20M83 95h14" />
    <path
      className="pic-line"
      d="M22 60c-4 18 2 36 12 48h22c4-14 2-32-4-46M158 60c4 18-2 36-12 48h-22c-4-14-2-32 4-46"
    />
  </>
);
const dropping = (
  <>
    <path className="pic-line" d="M26 78c0-16 22-26 60-26s66 8 66 24-26 20-66 20-60-4-60-18Z" />
    <path className="pic-thin" d="M44 70l14 6M64 62l10 10M84 78l16-6M106 64l10 8M124 74l12-4M60 86l14-4M102 88l12-6" />
  </>
);
const ground = <path className="pic-thin" d="M4 104h172" />;

const faces: Record<ExaminationPart, (code: string) => ReactNode> = {
  eyes: (code) => (
    <>
      {head}
      <circle className="pic-dot" cx="148" cy="54" r="1.6" />
      {code === 'closed' ? <path className="pic-mark" d="M97 48c8 7 24 7 32 0M102 53l-2 4M113 55v4M124 53l2 4" /> : eye}
      {code === 'sunken' ? <path className="pic-mark" d="M90 44c6-20 40-20 46 0M90 54c6 18 40 18 46 0" /> : null}
      {code === 'swollen' ? <path className="pic-mark" d="M92 46c4-24 38-24 42 0M92 50c4 22 38 22 42 0" /> : null}
      {code === 'cloudy' ? hatch(100, 42, 28, 12) : null}
      {code === 'discharge' ? drops(110, 62) : null}
    </>
  ),
  nose: (code) => (
    <>
      <path className="pic-line" d="M48 112c-16-26-16-66 12-84 18-12 42-12 60 0 28 18 28 58 12 84" />
      <path className="pic-line" d="M60 78c10 8 18 9 26 8l4 7 4-7c8 1 16 0 26-8M72 96c10 7 26 7 36 0" />
      <path className="pic-line" d="M44 58c4-8 12-10 18-6M136 58c-4-8-12-10-18-6" />
      <circle className="pic-dot" cx="82" cy="60" r="3" />
      <circle className="pic-dot" cx="98" cy="60" r="3" />
      <path className="pic-thin" d="M90 30v16M74 36l6 12M106 36l-6 12" />
      {code === 'discharge' ? drops(80, 66) : null}
      {code === 'blocked' ? (
        <path className="pic-mark" d="M76 60c2-7 10-7 12 0-2 6-10 6-12 0ZM92 60c2-7 10-7 12 0-2 6-10 6-12 0Z" />
      ) : null}
    </>
  ),
  mouth: (code) =>
    code === 'would-not-open' ? (
      <>
        {head}
        {smallEye}
        <path className="pic-mark" d="M98 76c16-5 34-6 55-4" />
      </>
    ) : (
      <>
        {openMouth}
        {code === 'plaque' ? (
          <path className="pic-mark" d="M100 70c3-3 7-2 8 1-2 4-7 4-8-1ZM114 76c3-3 7-2 8 1-2 4-7 4-8-1Z" />
        ) : null}
        {code === 'slime' ? <path className="pic-mark" d="M112 62c2 8 0 10 4 14M126 60c-2 10 2 14 0 22" /> : null}
        {code === 'reddened' ? hatch(96, 66, 32, 12) : null}
      </>
    ),
  limbs: (code) => (
    <>
      {leg}
      {code === 'swollen' ? <path className="pic-mark" d="M96 22c22 0 38 18 36 40" /> : null}
      {code === 'thin' ? <path className="pic-mark" d="M40 30c20-4 36 0 50 12M100 92c-4-14-8-26-18-34" /> : null}
      {code === 'weak' ? <path className="pic-mark" d="M146 40v42M139 74l7 9 7-9" /> : null}
      {code === 'wound' ? <path className="pic-mark" d="M76 38l18 12M80 50l4-8M88 54l4-8" /> : null}
      {code === 'no-response' ? <path className="pic-mark" d="M164 74l-24 22M148 94l-9 3 2-9" /> : null}
    </>
  ),
  shell: (code) => (
    <>
      {shell}
      {code.startsWith('soft') ? <path className="pic-mark" d="M74 62c8 10 24 10 32 0M90 34v22M84 50l6 7 6-7" /> : null}
      {code === 'smell' ? (
        <path className="pic-mark" d="M70 40c-6-8 6-12 0-20M90 38c-6-8 6-12 0-20M110 40c-6-8 6-12 0-20" />
      ) : null}
      {code === 'discharge' ? drops(88, 80) : null}
      {code === 'reddened' ? hatch(36, 94, 108, 8) : null}
      {code === 'loose' ? <path className="pic-mark" d="M72 48h36l12 32-30 10-30-10Z" /> : null}
      {code === 'old-damage' ? <path className="pic-mark" d="M120 30l-8 12 10 8-8 14" /> : null}
    </>
  ),
  tail: (code) => (
    <>
      {tail}
      {code === 'soiled' ? <path className="pic-mark" d="M78 70h4M86 66h4M96 68h4M84 82h4M94 84h4M88 92h4" /> : null}
      {code === 'swollen' ? <path className="pic-mark" d="M76 72c2-10 26-10 28 0 0 12-28 12-28 0Z" /> : null}
      {code === 'discharge' ? drops(86, 80) : null}
      {code === 'prolapse' ? <path className="pic-mark" d="M84 76c-6 16 2 26 6 26s12-10 6-26Z" /> : null}
    </>
  ),
  breathing: (code) => (
    <>
      {code === 'open-mouthed' ? openMouth : head}
      {code === 'open-mouthed' ? null : smallEye}
      {code === 'open-mouthed' ? null : <circle className="pic-dot" cx="148" cy="54" r="1.8" />}
      <path className="pic-thin" d="M160 44c6 4 6 12 0 16M168 38c9 7 9 21 0 28" />
      {code === 'noisy' ? <path className="pic-mark" d="M158 40l6 6-6 6 6 6-6 6M168 36l6 6-6 6 6 6-6 6 6 6" /> : null}
      {code === 'bubbles' ? bubbles(158, 52) : null}
      {code === 'open-mouthed' ? <path className="pic-mark" d="M140 66c10 2 18 6 26 12M134 76c8 4 14 8 20 14" /> : null}
    </>
  ),
  droppings: (code) => (
    <>
      {ground}
      {code === 'none' ? (
        <path className="pic-mark" strokeDasharray="4 5" d="M26 82c0-20 22-28 62-28s66 10 66 28Z" />
      ) : null}
      {code === 'loose' ? (
        <path className="pic-mark" d="M20 94c-8-12 20-14 26-24 8-14 48-16 60-2 8 10 60 2 58 18-2 18-130 20-144 8Z" />
      ) : null}
      {code === 'urine' ? (
        <>
          <path className="pic-mark" d="M16 96c0-14 40-20 78-20s74 6 70 20-148 12-148 0Z" />
          <path className="pic-line" d="M74 90c4-12 30-12 34 0 4 10-38 10-34 0Z" />
        </>
      ) : null}
      {['none', 'loose', 'urine'].includes(code) ? null : dropping}
      {code === 'undigested' ? (
        <path
          className="pic-mark"
          d="M56 72c6-10 16-10 20-4-4 8-14 10-20 4ZM56 72l20-4M104 80c6-10 16-10 20-4-4 8-14 10-20 4ZM104 80l20-4"
        />
      ) : null}
      {code === 'worms' ? (
        <path className="pic-mark" d="M60 70c6-6 8 6 14 0s8 6 14 0M94 82c6-6 8 6 14 0s8 6 14 0" />
      ) : null}
      {code === 'blood' ? drops(84, 62) : null}
    </>
  ),
};

/** A close look at one part in a few lines; what was found is drawn in. Drawn for this product; the words beside it say the same. */
export function Picture({ part, code = 'clear' }: { readonly part: ExaminationPart; readonly code?: string }) {
  return (
    <svg className="part-picture" viewBox="0 0 180 120" width="180" height="120" aria-hidden="true">
      {faces[part](code)}
    </svg>
  );
}
