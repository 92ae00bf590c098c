import { useMemo, useState } from 'react';
import { addDays, type Day, dayNumber } from '../../measure/day.ts';
import { dayInZone, instantInZone } from '../../measure/zone.ts';
import { GUT_Q10, GUT_TAPER } from '../../physiology/constants.ts';
import type { GutWarmth } from '../../schema/gut-warmth.ts';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import { gutCourse, readingSeries, type Warmth, warmthInForce, warmthSeries } from '../../winter/gut-course.ts';
import type { WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { useDraft } from '../data/draft.ts';
import { useWithWaiting } from '../data/entries.ts';
import { useFigures, useMayWrite } from '../data/group.ts';
import { enter } from '../data/outbox.ts';
import { useAnswer } from '../data/queries.ts';
import { sayDay, sayInstant } from '../parts/dates.ts';
import { Field, Pick, typedNumber } from '../parts/field.tsx';
import { SourceLine, Why } from '../parts/text.tsx';

/** What is typed: the figures as text, in the units of the group. */
interface Typed {
  readonly mealDay: Day;
  readonly lampHours: string;
  readonly lampTemp: string;
  readonly nightTemp: string;
  /** A thermometer whose readings are used instead; empty for the figures typed. */
  readonly probeId: string;
}
const NOTHING: Partial<Typed> = {};

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
  const written = useAnswer<readonly GutWarmth[]>(`animals/${animalId}/gut-warmth`).data ?? [];
  const kept = warmthInForce(useWithWaiting('gut-warmth', animalId, written), today);
  // What is being typed stands above what was kept, and survives a reload; once kept, every phone sees it.
  const [draft, change, forget] = useDraft<Partial<Typed>>(`warmth-${animalId}-${plan.winter}`, NOTHING);
  const warmth: Typed = {
    mealDay: kept?.mealDay ?? (fastDay && fastDay < today ? fastDay : today),
    lampHours: String(kept?.lampHours ?? request.lampHours ?? 12),
    lampTemp: typedTemp(kept?.lampBodyTempC ?? request.lampBodyTempC ?? 28),
    nightTemp: typedTemp(kept?.nightTempC ?? request.nightBodyTempC ?? 15),
    probeId: kept?.probeId ?? '',
    ...draft,
  };
  const read = readWarmth(warmth, figures);
  const mealMs = instantInZone(warmth.mealDay, zone, 12);
  const nowMs = instantInZone(addDays(today, 1), zone);
  const chart = useAnswer<ReadingChart>(
    `readings?probeId=${warmth.probeId}&from=${new Date(mealMs).toISOString()}&to=${new Date(nowMs).toISOString()}&buckets=2000`,
    warmth.probeId !== '' && mealMs < nowMs,
  ).data;
  const { probeId } = warmth;
  const { lampHours, lampBodyTempC, nightTempC } = read ?? {};
  const found = useMemo(() => {
    if (lampHours === undefined || lampBodyTempC === undefined || nightTempC === undefined) return undefined;
    const series =
      probeId === ''
        ? warmthSeries(request, { lampHours, lampBodyTempC, nightTempC }, mealMs)
        : chart && readingSeries(chart.atMs, chart.meanC);
    return series && gutCourse(request, series, mealMs, Math.min(Date.now(), nowMs));
  }, [lampHours, lampBodyTempC, nightTempC, probeId, chart, request, mealMs, nowMs]);
  const [said, setSaid] = useState('');
  const mayWrite = useMayWrite();
  const keep = async () => {
    if (!read) return;
    const body = { animalId, at: new Date().toISOString(), mealDay: warmth.mealDay, ...read };
    await enter('gut-warmth', { ...body, ...(probeId ? { probeId } : {}) });
    forget();
    setSaid(say('web.gut.kept'));
  };
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
          {read ? null : (
            <p className="field-error" role="alert">
              {say('web.gut.wrong')}
            </p>
          )}
          {mayWrite ? (
            <div className="actions">
              <button type="button" className="button" disabled={!read} onClick={keep}>
                {say('web.gut.keep')}
              </button>
              <span role="status">{said}</span>
            </div>
          ) : null}
          <p className="field-help">
            {kept ? say('web.gut.keptAt', { at: sayInstant(kept.at, zone) }) : say('web.gut.notKept')}
          </p>
        </div>
      </details>
    </section>
  );
}

/** The figures typed, in degrees Celsius; undefined when one of them is no figure an animal can live at. */
function readWarmth(typed: Typed, figures: ReturnType<typeof useFigures>): Omit<Warmth, 'mealDay'> | undefined {
  const lampHours = typedNumber(typed.lampHours);
  const lamp = typedNumber(typed.lampTemp);
  const night = typedNumber(typed.nightTemp);
  if (lampHours === undefined || lamp === undefined || night === undefined) return undefined;
  const [lampBodyTempC, nightTempC] = [figures.tempC(lamp), figures.tempC(night)];
  const possible =
    lampHours >= 0 &&
    lampHours <= 18 &&
    lampBodyTempC >= 10 &&
    lampBodyTempC <= 40 &&
    nightTempC >= -5 &&
    nightTempC <= 35;
  return possible ? { lampHours, lampBodyTempC, nightTempC } : undefined;
}
