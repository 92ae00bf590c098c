import type { BoxDescription } from '../../heat/description.ts';
import { mmToInches } from '../../measure/units.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { capital } from '../parts/text.tsx';
import { type Build, boxOf, inRefrigerator, litresOf } from './build.ts';
import { ColdDrawing } from './section-cold.tsx';
import { wordFor } from './words.ts';

/** The box cut through its length, drawn to scale: walls, fill, bottles, inner box, bedding, animal, probe, air holes. */
export function Section({ build }: { readonly build: Build }) {
  const { lengthUnit } = useFigures();
  const box = boxOf(build);
  const cold = inRefrigerator(build);
  const bottles = cold ? build.coldBottles : build.bottles;
  const holes = say('web.section.holes', { count: build.holes, diameter: build.holeMm });
  return (
    <figure className="section">
      {cold ? <ColdDrawing box={box} build={build} /> : <Drawing box={box} build={build} />}
      <figcaption>
        <ul className="section-key">
          {cold ? (
            <>
              <li>
                <Mark kind="size" />
                {say('web.section.cold', { size: capital(wordFor.refrigerator(build.refrigerator.preset)) })}
              </li>
              <li>
                <Mark kind="wall" />
                {say('web.section.inner', { inner: wordFor.inner(build.innerMaterial), holes })}
              </li>
            </>
          ) : (
            <li>
              <Mark kind="wall" />
              {say('web.section.wall', {
                thickness: build.wallMm,
                material: wordFor.material(build.wallMaterial),
                holes,
              })}
            </li>
          )}
          {bottles > 0 ? (
            <li>
              <Mark kind="bottle" />
              {say('web.section.bottles', { count: bottles, litres: litresOf(build) })}
            </li>
          ) : null}
          <li>
            <Mark kind="probe" />
            {say(`web.section.probe.${box.probe?.at ?? 'beside-animal'}`)}
          </li>
          <li>
            <Mark kind="size" />
            {say('web.section.size', outsideSize(box, lengthUnit))}
          </li>
        </ul>
      </figcaption>
    </figure>
  );
}

function outsideSize(box: BoxDescription, unit: 'mm' | 'in') {
  const outer = box.shells[0];
  const wall = outer?.walls.reduce((sum, layer) => sum + layer.thicknessMm, 0) ?? 0;
  const side = (mm: number) => Math.round(unit === 'in' ? mmToInches(mm + 2 * wall) : (mm + 2 * wall) / 10);
  return {
    length: side(outer?.insideLengthMm ?? 0),
    width: side(outer?.insideWidthMm ?? 0),
    height: side(outer?.insideHeightMm ?? 0),
    unit: unit === 'in' ? 'in' : 'cm',
  };
}

function Mark({ kind }: { readonly kind: 'wall' | 'bottle' | 'probe' | 'size' }) {
  return (
    <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
      {kind === 'wall' ? (
        <>
          <rect className="sec-line" x="1" y="3" width="16" height="12" />
          <path className="sec-hatch" d="M1 9l6-6M1 15L13 3M7 15l10-10M13 15l4-4" />
        </>
      ) : null}
      {kind === 'bottle' ? <rect className="sec-water" x="6" y="1" width="6" height="16" rx="2" /> : null}
      {kind === 'probe' ? <circle className="sec-probe" cx="9" cy="9" r="4" /> : null}
      {kind === 'size' ? <path className="sec-line" d="M1 9h16M1 5v8M17 5v8" /> : null}
    </svg>
  );
}

const WIDTH = 330;
/** Up to six holes are drawn: three through each wall that the cut shows. */
const holePlaces = ['left-1', 'left-2', 'left-3', 'right-1', 'right-2', 'right-3'] as const;

function Drawing({ box, build }: { readonly box: BoxDescription; readonly build: Build }) {
  const [outer, inner] = box.shells;
  if (!outer || !inner) return null;
  const wall = build.wallMm;
  const fullLength = outer.insideLengthMm + 2 * wall;
  const fullHeight = outer.insideHeightMm + 2 * wall;
  const scale = Math.min(WIDTH / fullLength, 250 / fullHeight);
  const px = (mm: number) => mm * scale;
  const width = px(fullLength);
  const height = px(fullHeight);
  const innerWall = inner.walls[0]?.thicknessMm ?? 5;
  const innerW = px(inner.insideLengthMm + 2 * innerWall);
  const innerH = px(inner.insideHeightMm + 2 * innerWall);
  const innerX = (width - innerW) / 2;
  const innerY = (height - innerH) / 2;
  const floor = innerY + innerH - px(innerWall);
  // The animal by its mass: a shell of roughly twice as long as high, as long as the published size curve makes it.
  const shellMm = 10 ** ((Math.log10(build.animalG) + 2.677) / 2.552);
  const bodyW = Math.min(px(shellMm), innerW - px(innerWall) * 2 - 8);
  const bodyH = bodyW * 0.52;
  const bodyX = width / 2 - bodyW / 2;
  const bed = Math.min(px(build.beddingMm), innerH - bodyH - 6);
  const ground = floor - Math.max(2, bed * 0.5);
  // Bottles of 1.5 l are 90 mm across and 320 mm high; those that do not fit upright lie down.
  const gap = px(build.fillMm);
  const bottleW = Math.min(px(88), Math.max(4, gap - 3));
  const bottleH = Math.min(px(300), px(outer.insideHeightMm) - 4);
  const perSide = Math.ceil(build.bottles / 2);
  const seen = Math.max(1, Math.floor((gap - 2) / (bottleW + 2)));
  const bottles = [0, 1].flatMap((side) => {
    const count = Math.min(side === 0 ? perSide : build.bottles - perSide, seen);
    return Array.from({ length: Math.max(0, count) }, (_, index) => {
      const offset = px(wall) + 2 + index * (bottleW + 2);
      return { key: `${side}${index}`, x: side === 0 ? offset : width - offset - bottleW };
    });
  });
  const holes = Math.min(build.holes, holePlaces.length);
  const probe = {
    'beside-animal': { x: Math.min(bodyX + bodyW + 9, innerX + innerW - 8), y: ground - 6 },
    'inner-air': { x: innerX + innerW - 14, y: innerY + 14 },
    'under-lid': { x: width / 2, y: innerY + px(innerWall) + 5 },
    'outer-space': { x: width / 2, y: (px(wall) + innerY) / 2 },
    'on-ballast': { x: (bottles[0]?.x ?? 0) + bottleW / 2, y: height - px(wall) - bottleH / 2 },
  }[box.probe?.at ?? 'beside-animal'];
  return (
    <svg
      viewBox={`-1 -1 ${width + 2} ${height + 2}`}
      width={width + 2}
      height={height + 2}
      role="img"
      aria-label={say('web.section.title')}
    >
      <defs>
        <pattern id="wall-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line className="sec-hatch" x1="0" x2="0" y1="0" y2="7" />
        </pattern>
        <pattern id="bed-dash" width="9" height="7" patternUnits="userSpaceOnUse">
          <path className="sec-hatch" d="M0 2h4M5 5.5h4" />
        </pattern>
      </defs>
      <path
        className="sec-line"
        fill="url(#wall-hatch)"
        fillRule="evenodd"
        d={`M0 0H${width}V${height}H0ZM${px(wall)} ${px(wall)}V${height - px(wall)}H${width - px(wall)}V${px(wall)}Z`}
      />
      <line className="sec-line" x1={0} x2={width} y1={px(wall)} y2={px(wall)} />
      {holePlaces.slice(0, holes).map((place, index) => {
        const y = px(wall) + 8 + ((index % 3) * (height - 2 * px(wall) - 16)) / 3;
        const x = index < 3 ? 0 : width - px(wall);
        return (
          <rect
            key={place}
            className="sec-hole"
            x={x - 0.5}
            y={y}
            width={px(wall) + 1}
            height={Math.max(2, px(build.holeMm))}
          />
        );
      })}
      {bottles.map((bottle) => (
        <rect
          key={bottle.key}
          className="sec-water"
          x={bottle.x}
          y={height - px(wall) - bottleH - 1}
          width={bottleW}
          height={bottleH}
          rx={Math.min(7, bottleW / 3)}
        />
      ))}
      <rect className="sec-inner" x={innerX} y={innerY} width={innerW} height={innerH} />
      <rect
        fill="url(#bed-dash)"
        x={innerX + px(innerWall)}
        y={floor - bed}
        width={innerW - 2 * px(innerWall)}
        height={bed}
      />
      <path
        className="sec-body"
        d={`M${bodyX} ${ground}C${bodyX} ${ground - bodyH * 1.35} ${bodyX + bodyW} ${ground - bodyH * 1.35} ${bodyX + bodyW} ${ground}Z`}
      />
      <path
        className="sec-hatch"
        d={`M${bodyX + bodyW * 0.32} ${ground}V${ground - bodyH * 0.5}M${bodyX + bodyW * 0.5} ${ground}V${ground - bodyH * 0.95}M${bodyX + bodyW * 0.68} ${ground}V${ground - bodyH * 0.5}`}
      />
      <circle className="sec-probe" cx={probe.x} cy={probe.y} r={4.5} />
    </svg>
  );
}
