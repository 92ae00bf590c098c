import { whatMoved } from '../../winter/move-plan.ts';
import type { StageName, WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { sayDay } from '../parts/dates.ts';
import { capital } from '../parts/text.tsx';

/** What a moved plan carries with it: every stage and task that stands on another day, and by how many days. */
export function WhatMoved({ before, after }: { readonly before: WinterPlan; readonly after: WinterPlan }) {
  const moved = whatMoved(before, after);
  if (moved.length === 0) return null;
  const line = (one: (typeof moved)[number]) => {
    const values = { from: sayDay(one.fromDay), to: sayDay(one.toDay), count: Math.abs(one.days) };
    const how = say(one.days > 0 ? 'winter.moved.later' : 'winter.moved.earlier', values);
    return one.what === 'stage'
      ? `${capital(say(`web.stage.${one.key as StageName}`))}: ${how}`
      : `${say(one.say)} (${how})`;
  };
  const stages = moved.filter((one) => one.what === 'stage');
  const tasks = moved.filter((one) => one.what === 'task');
  return (
    <section aria-labelledby="what-moves">
      <h2 id="what-moves">{say('winter.moved.title')}</h2>
      <ul className="plain">
        {stages.map((one) => (
          <li key={one.key}>{line(one)}</li>
        ))}
      </ul>
      {tasks.length > 0 ? (
        <details className="why">
          <summary>{say('winter.moved.tasks', { count: tasks.length })}</summary>
          <ul className="plain">
            {tasks.map((one) => (
              <li key={one.key}>{line(one)}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}
