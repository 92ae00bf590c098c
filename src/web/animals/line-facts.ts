import { type Day, daysBetween } from '../../measure/day.ts';
import { dayInZone } from '../../measure/zone.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Notice } from '../../schema/notice.ts';
import type { WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { sayMonth } from '../parts/dates.ts';
import { sayMessage } from '../parts/text.tsx';
import type { LineTemperature, WinterLineFacts } from '../winter-line/layout.ts';

interface Known {
  readonly plan: WinterPlan;
  readonly today: Day;
  readonly zone: string;
  readonly measurements: readonly Measurement[];
  readonly temperatures?: readonly LineTemperature[];
  readonly notices?: readonly Notice[];
  readonly mass: (massG: number) => string;
  readonly temperature: (tempC: number, digits?: number) => string;
  readonly band?: { readonly lowC: number; readonly highC: number };
}

/** What is known of a winter as the facts of its line. */
export function lineFacts(known: Known): WinterLineFacts {
  const { plan, today, zone } = known;
  const band = known.band ?? { lowC: 3, highC: 8 };
  const night = plan.sleepDay ? daysBetween(plan.sleepDay, today) + 1 : 0;
  const nights = plan.length?.days ?? 0;
  const inSight = today >= plan.fromDay && today <= plan.toDay;
  return {
    stages: plan.stages.map((stage) => ({
      name: stage.name,
      fromDay: stage.fromDay,
      toDay: stage.toDay,
      label: say(`web.stage.${stage.name}`),
    })),
    today: inSight
      ? {
          day: today,
          label: night >= 1 && night <= nights ? say('web.line.todayNight', { night, nights }) : say('web.line.today'),
        }
      : undefined,
    weighIns: known.measurements
      .flatMap((one) =>
        one.massG === undefined
          ? []
          : [{ day: dayInZone(Date.parse(one.at), zone), massG: one.massG, label: known.mass(one.massG) }],
      )
      .sort((a, b) => (a.day < b.day ? -1 : 1)),
    temperatures: known.temperatures ?? [],
    temperature: known.temperature,
    expected: [],
    band: {
      ...band,
      lowLabel: known.temperature(band.lowC, 0),
      highLabel: known.temperature(band.highC, 0),
    },
    notices: (known.notices ?? [])
      .filter((notice) => notice.level !== 'for-the-record')
      .map((notice) => ({
        day: dayInZone(Date.parse(notice.fromAt), zone),
        label: sayMessage(notice.message),
        actNow: notice.level === 'act-now',
      })),
    monthName: sayMonth,
  };
}
