import { dayInZone } from '../../measure/zone.ts';
import type { BatteryLevel, Probe } from '../../schema/reading.ts';
import { watchRule } from '../../winter/watch-rules.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayDayYear, sayInstant } from '../parts/dates.ts';

const DAYS_SHOWN = 60;

const levelsOf = (probe: Probe) => `probes/${probe.id}/battery`;

/** What the thermometer last said of its battery, and when. */
export function Battery({ probe }: { readonly probe: Probe }) {
  const { zone } = useFigures();
  const levels = useAnswer<readonly BatteryLevel[]>(levelsOf(probe)).data;
  const last = levels?.[0];
  if (!last) return levels ? say('web.battery.never') : '…';
  return (
    <>
      {last.percent === undefined
        ? say(last.low ? 'web.battery.saysLow' : 'web.battery.saysWell', { at: sayInstant(last.at, zone) })
        : say('web.battery.last', { percent: last.percent, at: sayInstant(last.at, zone) })}
      {last.low || (last.percent !== undefined && last.percent < watchRule('battery').limit) ? (
        <strong className="probe-silent"> {say('web.battery.low')}</strong>
      ) : null}
    </>
  );
}

/** How the battery went down: the lowest it said on each day, newest first. */
export function BatteryHistory({ probe }: { readonly probe: Probe }) {
  const { zone } = useFigures();
  const levels = useAnswer<readonly BatteryLevel[]>(levelsOf(probe)).data ?? [];
  const days = new Map<string, number>();
  for (const { at, percent } of levels) {
    if (percent === undefined) continue;
    const day = dayInZone(Date.parse(at), zone);
    days.set(day, Math.min(percent, days.get(day) ?? 100));
  }
  if (days.size < 2) return null;
  return (
    <details className="why">
      <summary>{say('web.battery.history')}</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('web.line.day')}</th>
            <th scope="col" data-number>
              {say('web.battery.lowest')}
            </th>
          </tr>
        </thead>
        <tbody>
          {[...days].slice(0, DAYS_SHOWN).map(([day, percent]) => (
            <tr key={day}>
              <th scope="row">{sayDayYear(day)}</th>
              <td data-number>{say('web.battery.percent', { percent })}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
