import { forecastBox } from '../../src/heat/forecast.ts';
import { fishBox, shed, thirtyWinters } from '../heat-cases.ts';
import { redrawInBrowser } from '../redraw-in-browser.ts';
import { bestMs, type MakeRows, type Row } from '../row.ts';

const row = (value: number | null, note: string): Row => ({
  name: 'builder-redraw',
  value,
  unit: 'ms',
  peer: '',
  ratio: null,
  note,
});
const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? null;

/** One moved value, 30 winters: the knowledge alone, then in Chromium from the key to the drawn winters. */
export const rows: MakeRows = async () => {
  const prepared = thirtyWinters();
  const place = shed(1.5, prepared);
  let wall = 30;
  const box = bestMs(() => {
    wall = 30 + ((wall + 1) % 40);
    forecastBox({ place, box: fishBox(wall, 4), sleep: { from: '12-01', days: 77 } });
  }, 10);
  let turned = 0;
  const moved = bestMs(() => {
    turned = (turned + 15) % 360;
    forecastBox({ place: shed(1.5, prepared, turned), box: fishBox(40, 4), sleep: { from: '12-01', days: 77 } });
  }, 5);
  const alone = [
    row(box, 'knowledge alone, a value of the box moved, 30 winters'),
    row(moved, 'knowledge alone, a value of the place moved, 30 winters'),
  ];
  const seen = await redrawInBrowser();
  if (!seen) return [...alone, row(null, 'Chromium or the built screens were not found')];
  return [
    ...alone,
    ...seen.flatMap(({ what, drawnMs }) => [
      row(middle(drawnMs), `Chromium, key to drawn winters, ${what}: median of ${drawnMs.length}`),
      row(Math.min(...drawnMs), `Chromium, key to drawn winters, ${what}: shortest`),
    ]),
  ];
};
