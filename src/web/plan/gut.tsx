import { useMemo } from 'react';
import { addDays, type Day, dayNumber } from '../../measure/day.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import { plannedBodyTemperature, type TemperatureSeries } from '../../physiology/body-temperature.ts';
import { GUT_Q10, GUT_TAPER } from '../../physiology/constants.ts';
import { gutOf, gutProgress, gutVerdict } from '../../physiology/gut-clearing.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import type { WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { useDraft } from '../data/draft.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayDay } from '../parts/dates.ts';
import { Field, Pick, typedNumber } from '../parts/field.tsx';
import { SourceLine, Why } from '../parts/text.tsx';

const DAY_MS = 86_400_000;
const STEP_MS = 6 * 3_600_000;
const LOOK_DAYS = 120;

interface Warmth {
  readonly mealDay: Day;
  readonly lampHours: string;
  readonly lampTemp: string;
  readonly nightTemp: string;
  /** A thermometer whose readings are used instead; empty for the figures typed. */
  readonly probeId: string;
}

interface GutProps {
  readonly animalId: string;
  readonly plan: WinterPlan;
  /** Moves the plan to a gut that is clear on this day; left out where a plan cannot be moved. */
  readonly onNotClear?: (clearDay: Day) => void;
}

/** Whether the last meal has passed, at the warmth there really was: typed lamp hours and nights, or readings. */
export function Gut({ animalId, plan, onNotClear }: GutProps) {
  const figures = useFigures();
  const { today, zone } = figures;
  const { request } = plan;
  const fastDay = plan.stages.find((stage) => stage.name === 'fast')?.fromDay;
  const probes = useAnswer<readonly Probe[]>('probes').data ?? [];
  const typedTemp = (tempC: number) => String(Number(figures.temperature(tempC, 0).split('\u00a0')[0]));
  const [warmth, change] = useDraft<Warmth>(`warmth-${animalId}-${plan.winter}`, {
    mealDay: fastDay && fastDay < today ? fastDay : today,
    lampHours: String(request.lampHours ?? 12),
    lampTemp: typedTemp(request.lampBodyTempC ?? 28),
    nightTemp: typedTemp(request.nightBodyTempC ?? 15),
    probeId: '',
  });
  const mealMs = instantInZone(warmth.mealDay, zone, 12);
  const nowMs = instantInZone(addDays(today, 1), zone);
  const chart = useAnswer<ReadingChart>(
    `readings?probeId=${warmth.probeId}&from=${new Date(mealMs).toISOString()}&to=${new Date(nowMs).toISOString()}&buckets=2000`,
    warmth.probeId !== '' && mealMs < nowMs,
  ).data;
  const found = useMemo(() => {
    const hours = typedNumber(warmth.lampHours);
    const lamp = typedNumber(warmth.lampTemp);
    const night = typedNumber(warmth.nightTemp);
    const gut = gutOf(request.sclMm);
    let series: TemperatureSeries;
    if (warmth.probeId !== '') {
      if (!chart || chart.atMs.length < 2) return undefined;
      series = extended(chart);
    } else {
      if (hours === undefined || hours < 0 || hours > 24 || lamp === undefined || night === undefined) return undefined;
      const nightC = figures.tempC(night);
      const day = { lampHours: hours, baskingC: figures.tempC(lamp), dayC: nightC, nightC };
      const massKg = (request.massG ?? 0.2 * (request.sclMm / 10) ** 3) / 1000;
      series = plannedBodyTemperature(
        mealMs - DAY_MS / 2,
        Array.from({ length: LOOK_DAYS }, () => day),
        massKg,
      );
    }
    const whole = gutProgress(series, mealMs, gut);
    const soFar = gutProgress(until(series, Math.max(mealMs + STEP_MS, Math.min(Date.now(), nowMs))), mealMs, gut);
    return { verdict: gutVerdict(soFar, gut), clearAtMs: whole.clearAtMs, source: gut.source };
  }, [warmth, chart, request, mealMs, nowMs, figures.tempC]);
  const day = (ms: number | undefined) => (ms === undefined ? undefined : dayInZone(ms, zone));
  const clear = {
    early: day(found?.clearAtMs.early),
    expected: day(found?.clearAtMs.expected),
    late: day(found?.clearAtMs.late),
  };
  const tooLate =
    plan.sleepDay !== undefined &&
    (clear.expected === undefined || dayNumber(clear.expected) > dayNumber(plan.sleepDay) - 4);
  return (
    <section aria-labelledby="gut">
      <h2 id="gut">{say('web.gut.title')}</h2>
      {found ? (
        <div
          className="note"
          role="status"
          data-level={
            found.verdict.state === 'too-cold-to-clear' || (tooLate && found.verdict.state !== 'clear')
              ? 'act'
              : undefined
          }
        >
          <p>{say(found.verdict.message)}</p>
          <p>
            {clear.expected
              ? say('web.plan.gut', {
                  day: sayDay(clear.expected, today),
                  from: sayDay(clear.early ?? clear.expected, today),
                  to: clear.late ? sayDay(clear.late, today) : say('web.gut.never'),
                })
              : say('web.gut.notAtAll')}
          </p>
          {tooLate && clear.expected && onNotClear && found.verdict.state !== 'clear' ? (
            <button type="button" className="button no-print" onClick={() => onNotClear(clear.late ?? clear.expected!)}>
              {say('web.gut.move')}
            </button>
          ) : null}
          <Why>
            <p>{say('web.gut.how')}</p>
            <SourceLine source={found.source} />
            <SourceLine source={GUT_Q10.source} />
            <SourceLine source={GUT_TAPER.source} />
          </Why>
        </div>
      ) : (
        <p className="soft" role="status">
          {say('physiology.gut.unknown')}
        </p>
      )}
      <details className="why no-print">
        <summary>{say('web.gut.enter')}</summary>
        <div>
          <Field
            label={say('web.gut.meal')}
            kind="day"
            value={warmth.mealDay}
            onChange={(mealDay) => mealDay && change({ mealDay })}
          />
          <Pick
            label={say('web.gut.from')}
            value={warmth.probeId}
            onChange={(probeId) => change({ probeId })}
            options={[
              { value: '', label: say('web.gut.typed') },
              ...probes.map((one) => ({ value: one.id, label: say('web.gut.probe', { name: one.name }) })),
            ]}
          />
          {warmth.probeId === '' ? (
            <>
              <Field
                label={say('web.gut.lampHours')}
                kind="number"
                unit="h"
                value={warmth.lampHours}
                onChange={(lampHours) => change({ lampHours })}
              />
              <Field
                label={say('web.gut.lampTemp')}
                kind="number"
                unit={figures.temperatureUnit}
                value={warmth.lampTemp}
                onChange={(lampTemp) => change({ lampTemp })}
              />
              <Field
                label={say('web.gut.nightTemp')}
                kind="number"
                unit={figures.temperatureUnit}
                value={warmth.nightTemp}
                onChange={(nightTemp) => change({ nightTemp })}
              />
            </>
          ) : null}
        </div>
      </details>
    </section>
  );
}

/** The series up to an instant. */
function until({ atMs, tempC }: TemperatureSeries, endMs: number): TemperatureSeries {
  const after = atMs.findIndex((ms) => ms > endMs);
  const end = after < 0 ? atMs.length : after;
  return { atMs: atMs.slice(0, end), tempC: tempC.slice(0, end) };
}

/** Readings as they came, and after the last of them the mean of their last three days. */
function extended(chart: ReadingChart): TemperatureSeries {
  const lastMs = chart.atMs.at(-1)!;
  const late = chart.meanC.filter((_, index) => chart.atMs[index]! > lastMs - 3 * DAY_MS);
  const meanC = late.reduce((sum, one) => sum + one, 0) / late.length;
  const steps = (LOOK_DAYS * DAY_MS) / STEP_MS;
  return {
    atMs: Float64Array.from([...chart.atMs, ...Array.from({ length: steps }, (_, i) => lastMs + (i + 1) * STEP_MS)]),
    tempC: Float64Array.from([...chart.meanC, ...Array.from({ length: steps }, () => meanC)]),
  };
}
