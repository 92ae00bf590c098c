import { answerOverWinters } from '../../src/heat/answer.ts';
import { searchBuilds, withWallAndWater } from '../../src/heat/build-search.ts';
import { answersOfBuild, sleepStretches } from '../../src/heat/forecast.ts';
import { fishBox, shed } from '../heat-cases.ts';
import { bestMs, type MakeRows } from '../row.ts';

/** 30 winters x 200 boxes, each different: modes, run and statistics, then ranked. The peer is the full answer of each box. */
export const rows: MakeRows = () => {
  const place = { id: 'here', forecast: shed(1.5) };
  const box = fishBox(30, 2);
  const sleep = { from: '12-01', days: 77 };
  const choices = {
    wallMm: Array.from({ length: 20 }, (_, i) => 20 + 5 * i),
    litres: Array.from({ length: 10 }, (_, i) => 1.5 * i),
    shiftWeeks: [0],
  };
  let tried = 0;
  const ours = bestMs(() => {
    tried = searchBuilds({ place, box, sleep, choices }).tried;
  }, 1);
  const stretches = sleepStretches(place.forecast, sleep);
  const full = bestMs(
    () => {
      for (const wallMm of choices.wallMm)
        for (const litres of choices.litres)
          answerOverWinters(answersOfBuild(stretches, withWallAndWater(box, wallMm, litres)));
    },
    1,
    3,
  );
  return [
    {
      name: 'build-search',
      value: ours,
      unit: 'ms',
      peer: '',
      ratio: null,
      note: `${tried} builds x 30 winters of 77 days, modes and statistics included`,
    },
    {
      name: 'build-search',
      value: full,
      unit: 'ms',
      peer: 'full answer of each build',
      ratio: full / ours,
    },
  ];
};
