import { zoneOffsetMs } from '../../measure/zone.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayInstant } from '../parts/dates.ts';
import type { BoxAhead } from './ahead-chart.tsx';

const HOUR_MS = 3_600_000;
const EVERY_H = 3;

/** The same as the chart: each third hour by the clock, with the first and the last. */
export function AheadTable({ ahead }: { readonly ahead: BoxAhead }) {
  const { temperature, zone } = useFigures();
  const heads = { likely: say('web.ahead.col.likely'), range: say('web.ahead.col.range') };
  const last = ahead.tempsC.length - 1;
  const atOf = (k: number) => ahead.startMs + k * ahead.stepMs;
  const rows = Array.from({ length: last + 1 }, (_, k) => k).filter(
    (k) => k === 0 || k === last || Math.floor((atOf(k) + zoneOffsetMs(atOf(k), zone)) / HOUR_MS) % EVERY_H === 0,
  );
  return (
    <table data-fold>
      <thead>
        <tr>
          <th scope="col">{say('web.readings.col.at')}</th>
          {Object.values(heads).map((head) => (
            <th scope="col" data-number key={head}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((k) => (
          <tr key={k}>
            <th scope="row">{sayInstant(atOf(k), zone)}</th>
            <td data-number data-label={heads.likely}>
              {temperature(ahead.tempsC[k]!)}
            </td>
            <td data-number data-label={heads.range}>
              {say('web.readings.span', { low: temperature(ahead.lowC[k]!), high: temperature(ahead.highC[k]!) })}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
