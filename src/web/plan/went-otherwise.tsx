import { useState } from 'react';
import type { Day } from '../../measure/day.ts';
import type { Assessment } from '../../tortoise/types.ts';
import { movePlan, type PlanChange } from '../../winter/move-plan.ts';
import type { PlanContext } from '../../winter/plan.ts';
import type { WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { Field, Pick } from '../parts/field.tsx';

/** What a plan is moved to, and why in a sentence. */
export interface MovedTo {
  readonly sleepDay: Day;
  readonly sleepDays: number;
  readonly gutClearDay?: Day;
  readonly why: string;
}

interface Known {
  readonly plan: WinterPlan;
  readonly assessment: Assessment;
  readonly context: PlanContext;
}

/** The new dates that follow from what happened, or the sentence that says why there are none. */
export function moveBy(change: PlanChange, { plan, assessment, context }: Known): MovedTo | string {
  try {
    const outcome = movePlan(plan, change, '', assessment, context);
    if (outcome.outcome === 'refused') return outcome.reasons.map((reason) => say(reason.say)).join(' ');
    const { sleepDay, length } = outcome.plan;
    if (!sleepDay || !length || outcome.moved.length === 0) return say('winter.move.nothing');
    return {
      sleepDay,
      sleepDays: length.days,
      ...(change.kind === 'gut-not-clear' ? { gutClearDay: change.clearDay } : {}),
      why: say(outcome.summary),
    };
  } catch {
    return say('web.otherwise.before', { day: plan.sleepDay ?? '' });
  }
}

const kinds = ['gut-not-clear', 'box-too-warm', 'went-down', 'woke'] as const;

function changeOf(kind: (typeof kinds)[number], day: Day): PlanChange {
  switch (kind) {
    case 'gut-not-clear':
      return { kind, clearDay: day };
    case 'box-too-warm':
      return { kind, coldDay: day };
    case 'went-down':
    case 'woke':
      return { kind, on: day };
  }
}

/** Something did not follow the plan: what, and the day it is now. All that hangs on it moves along, before anything is saved. */
export function WentOtherwise(props: Known & { readonly onMove: (to: MovedTo) => void }) {
  const { today } = useFigures();
  const asleep = props.plan.sleepDay !== undefined && props.plan.sleepDay <= today;
  const [kind, setKind] = useState<(typeof kinds)[number]>(asleep ? 'woke' : 'gut-not-clear');
  const [day, setDay] = useState<Day>(today);
  const [said, setSaid] = useState('');
  return (
    <details className="why no-print">
      <summary>{say('web.otherwise.title')}</summary>
      <div>
        <Pick
          label={say('web.otherwise.what')}
          value={kind}
          onChange={setKind}
          options={kinds.map((value) => ({ value, label: say(`web.otherwise.${value}`) }))}
        />
        <Field
          label={say(`web.otherwise.day.${kind}`)}
          kind="day"
          value={day}
          onChange={(value) => value && setDay(value)}
        />
        <div className="actions">
          <button
            type="button"
            className="button"
            onClick={() => {
              const to = moveBy(changeOf(kind, day), props);
              setSaid(typeof to === 'string' ? to : to.why);
              if (typeof to !== 'string') props.onMove(to);
            }}
          >
            {say('web.otherwise.show')}
          </button>
        </div>
        <p role="status">{said}</p>
      </div>
    </details>
  );
}
