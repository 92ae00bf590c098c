import { useId } from 'react';
import { addDays, type Day, dayFromNumber, dayNumber, isDay } from '../../measure/day.ts';
import type { PlanRequest, WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayDayYear } from '../parts/dates.ts';
import { Choice } from '../parts/field.tsx';

interface MoveProps {
  readonly request: PlanRequest;
  readonly plan: WinterPlan | undefined;
  readonly onChange: (part: Partial<PlanRequest>) => void;
}

const REACH_DAYS = 120;

/** Moves the sleep: by slider, by steps of a day, or by typing; everything below follows at once. */
export function MovePlan({ request, plan, onChange }: MoveProps) {
  const { today } = useFigures();
  const sleepDay = request.sleepDay ?? plan?.sleepDay;
  const nights = request.sleepDays ?? plan?.length?.days;
  const wish = request.wish ?? 'sleep';
  return (
    <details className="why no-print move-plan" open>
      <summary>{say('web.plan.move')}</summary>
      <div>
        {wish === 'awake' ? null : (
          <div className="columns">
            <DayMover
              label={say('web.plan.sleepDay')}
              value={sleepDay ?? today}
              centre={plan?.shortestDay ?? sleepDay ?? today}
              onChange={(day) => onChange({ sleepDay: day })}
            />
            {wish === 'sleep' ? (
              <NightsMover
                value={nights ?? 1}
                ceiling={plan?.length?.ceilingDays ?? nights ?? 1}
                onChange={(days) => onChange({ sleepDays: days, ...(sleepDay ? { sleepDay } : {}) })}
              />
            ) : null}
          </div>
        )}
        <details className="why">
          <summary>{say('web.plan.choices')}</summary>
          <div>
            <Choice
              label={say('web.plan.wish')}
              value={wish}
              onChange={(value) => onChange({ wish: value })}
              options={(['sleep', 'first-cooling', 'awake'] as const).map((value) => ({
                value,
                label: say(`web.plan.wish.${value}`),
              }))}
            />
            {wish === 'awake' ? null : (
              <>
                <Choice
                  label={say('web.plan.method')}
                  value={request.method ?? 'place'}
                  onChange={(value) => onChange({ method: value })}
                  options={(['place', 'refrigerator'] as const).map((value) => ({
                    value,
                    label: say(`web.plan.method.${value}`),
                  }))}
                />
                <Choice
                  label={say('web.plan.lastBath')}
                  value={request.lastBath ?? 'day-before'}
                  onChange={(value) => onChange({ lastBath: value })}
                  options={(['day-before', 'week-before'] as const).map((value) => ({
                    value,
                    label: say(`web.plan.lastBath.${value}`),
                  }))}
                />
              </>
            )}
          </div>
        </details>
      </div>
    </details>
  );
}

function DayMover(props: {
  readonly label: string;
  readonly value: Day;
  readonly centre: Day;
  readonly onChange: (day: Day) => void;
}) {
  const id = useId();
  const middle = dayNumber(props.centre);
  return (
    <div className="field">
      <label htmlFor={id}>{props.label}</label>
      <div className="stepper">
        <button
          type="button"
          className="button"
          aria-label={say('web.plan.earlier')}
          onClick={() => props.onChange(addDays(props.value, -1))}
        >
          −
        </button>
        <input
          id={id}
          type="date"
          className="input"
          value={props.value}
          onChange={(event) => isDay(event.target.value) && props.onChange(event.target.value)}
        />
        <button
          type="button"
          className="button"
          aria-label={say('web.plan.later')}
          onClick={() => props.onChange(addDays(props.value, 1))}
        >
          +
        </button>
      </div>
      <input
        type="range"
        className="slider"
        aria-label={props.label}
        aria-valuetext={sayDayYear(props.value)}
        min={middle - REACH_DAYS}
        max={middle + REACH_DAYS}
        value={dayNumber(props.value)}
        onChange={(event) => props.onChange(dayFromNumber(Number(event.target.value)))}
      />
    </div>
  );
}

function NightsMover(props: {
  readonly value: number;
  readonly ceiling: number;
  readonly onChange: (nights: number) => void;
}) {
  const id = useId();
  const set = (nights: number) => props.onChange(Math.max(1, Math.min(200, Math.round(nights))));
  return (
    <div className="field">
      <label htmlFor={id}>{say('web.plan.nights')}</label>
      <div className="stepper">
        <button
          type="button"
          className="button"
          aria-label={say('web.builder.less', { what: say('web.plan.nights') })}
          onClick={() => set(props.value - 1)}
        >
          −
        </button>
        <input
          id={id}
          className="input"
          data-numeral
          inputMode="numeric"
          value={String(props.value)}
          onChange={(event) => Number(event.target.value) > 0 && set(Number(event.target.value))}
        />
        <button
          type="button"
          className="button"
          aria-label={say('web.builder.more.step', { what: say('web.plan.nights') })}
          onClick={() => set(props.value + 1)}
        >
          +
        </button>
      </div>
      <input
        type="range"
        className="slider"
        aria-label={say('web.plan.nights')}
        min={1}
        max={Math.max(props.ceiling, props.value)}
        value={props.value}
        onChange={(event) => set(Number(event.target.value))}
      />
    </div>
  );
}
