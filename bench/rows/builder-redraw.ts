import { forecastBox } from '../../src/heat/forecast.ts';
import { fishBox, shed, thirtyWinters } from '../heat-cases.ts';
import { bestMs, type MakeRows } from '../row.ts';

/** One moved value, 30 winters: every line and every figure the builder screen draws. */
export const rows: MakeRows = () => {
  const prepared = thirtyWinters();
  const place = shed(1.5, prepared);
  let wall = 30;
  const box = bestMs(() => {
    wall = 30 + ((wall + 1) % 40);
    forecastBox({ place, box: fishBox(wall, 4), sleep: { from: '12-01', days: 77 } });
  }, 10);
  let changes = 1;
  const moved = bestMs(() => {
    changes = 0.5 + ((changes + 0.1) % 3);
    forecastBox({ place: shed(changes, prepared), box: fishBox(40, 4), sleep: { from: '12-01', days: 77 } });
  }, 5);
  return [
    {
      name: 'builder-redraw',
      value: box,
      unit: 'ms',
      peer: '',
      ratio: null,
      note: 'a value of the box moved, 30 winters',
    },
    {
      name: 'builder-redraw',
      value: moved,
      unit: 'ms',
      peer: '',
      ratio: null,
      note: 'a value of the place moved, 30 winters',
    },
  ];
};
