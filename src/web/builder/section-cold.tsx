import type { BoxDescription } from '../../heat/description.ts';
import { refrigeratorPresets } from '../../heat/refrigerator-data.ts';
import { say } from '../../wording/say.ts';
import type { Build } from './build.ts';

const WIDTH = 300;
const HEIGHT = 340;
/** Bottles of 1.5 litres, mm. */
const BOTTLE = { across: 88, high: 300 };

/** A refrigerator cut through, to scale: a cabinet one and a half times as high as wide, one shelf, the box on it. */
export function ColdDrawing({ box, build }: { readonly box: BoxDescription; readonly build: Build }) {
  const shell = box.shells[0];
  if (!shell) return null;
  const wideMm = Math.cbrt(refrigeratorPresets[build.refrigerator.preset].volumeL / 1.5) * 100;
  const highMm = 1.5 * wideMm;
  const scale = Math.min(WIDTH / wideMm, HEIGHT / highMm);
  const px = (mm: number) => mm * scale;
  const [width, height] = [px(wideMm), px(highMm)];
  const wall = shell.walls[0]?.thicknessMm ?? 2;
  const boxW = px(shell.insideLengthMm + 2 * wall);
  const boxH = px(shell.insideHeightMm + 2 * wall);
  const shelfY = height / 2;
  const floorY = build.refrigerator.shelf === 'upper' ? shelfY : height;
  const x = 4;
  const y = floorY - boxH - 1;
  const bed = px(build.beddingMm);
  const shellMm = 10 ** ((Math.log10(build.animalG) + 2.677) / 2.552);
  const bodyW = Math.min(px(shellMm), boxW - 10);
  const bodyH = Math.min(bodyW * 0.52, boxH - 8);
  const bodyX = x + (boxW - bodyW) / 2;
  const ground = floorY - px(wall) - Math.max(2, bed * 0.5);
  // Bottles stand beside the box where they fit, else they lie on the other shelf.
  const free = width - boxW - 12;
  const stand = Math.floor(free / (px(BOTTLE.across) + 2));
  const otherY = build.refrigerator.shelf === 'upper' ? height : shelfY;
  const bottles = Array.from({ length: Math.min(build.coldBottles, 12) }, (_, index) =>
    index < stand && BOTTLE.high < highMm / 2
      ? {
          key: `upright${index}`,
          x: width - 4 - (index + 1) * (px(BOTTLE.across) + 2),
          y: floorY - px(BOTTLE.high) - 1,
          width: px(BOTTLE.across),
          height: px(BOTTLE.high),
        }
      : {
          key: `lying${index}`,
          x: 4,
          y: otherY - (index - Math.max(0, Math.min(stand, index)) + 1) * (px(BOTTLE.across) + 1) - 1,
          width: px(BOTTLE.high),
          height: px(BOTTLE.across),
        },
  ).filter((bottle) => bottle.y > (otherY === height ? shelfY : 0));
  const probe =
    box.probe?.at === 'under-lid'
      ? { x: x + boxW / 2, y: y + px(wall) + 5 }
      : box.probe?.at === 'inner-air'
        ? { x: x + boxW - 10, y: y + 12 }
        : { x: Math.min(bodyX + bodyW + 8, x + boxW - 7), y: ground - 5 };
  return (
    <svg
      viewBox={`-1 -1 ${width + 2} ${height + 2}`}
      width={width + 2}
      height={height + 2}
      role="img"
      aria-label={say('web.section.title')}
    >
      <rect className="sec-line" fill="none" x={0} y={0} width={width} height={height} />
      <line className="sec-line" x1={0} x2={width} y1={shelfY} y2={shelfY} />
      {bottles.map(({ key, ...bottle }) => (
        <rect key={key} className="sec-water" {...bottle} rx={4} />
      ))}
      <rect className="sec-inner" x={x} y={y} width={boxW} height={boxH} />
      <rect className="sec-hatch" x={x + 2} y={floorY - px(wall) - bed} width={boxW - 4} height={bed} />
      <path
        className="sec-body"
        d={`M${bodyX} ${ground}C${bodyX} ${ground - bodyH * 1.35} ${bodyX + bodyW} ${ground - bodyH * 1.35} ${bodyX + bodyW} ${ground}Z`}
      />
      <circle className="sec-probe" cx={probe.x} cy={probe.y} r={4.5} />
    </svg>
  );
}
