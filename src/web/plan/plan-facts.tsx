import type { WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayDay, sayWeekday } from '../parts/dates.ts';
import { capital, SourceLine, Why } from '../parts/text.tsx';

/** Why the plan is as it is: length, gut, lamp, and what is noted beside it, each with its source. */
export function Reasons({ plan }: { readonly plan: WinterPlan }) {
  const { today } = useFigures();
  const { gut, length } = plan;
  return (
    <section aria-labelledby="why-plan">
      <h2 id="why-plan">{say('web.plan.why')}</h2>
      <dl className="facts">
        {length ? (
          <div>
            <dt>{say('web.plan.why.length')}</dt>
            <dd>
              {say(length.say)}
              <Why>
                <SourceLine source={length.source} />
              </Why>
            </dd>
          </div>
        ) : null}
        {gut ? (
          <div>
            <dt>{say('web.plan.why.gut')}</dt>
            <dd>
              {gut.expectedDay
                ? say('web.plan.gut', {
                    day: sayDay(gut.expectedDay, today),
                    from: gut.earliestDay ? sayDay(gut.earliestDay, today) : '…',
                    to: gut.latestDay ? sayDay(gut.latestDay, today) : '…',
                  })
                : say('web.plan.gutOpen')}{' '}
              <span className="soft">{say('web.plan.gutWhy')}</span>
            </dd>
          </div>
        ) : null}
        {plan.lamp.length > 0 ? (
          <div>
            <dt>{say('web.plan.lamp')}</dt>
            <dd>
              <ul className="plain">
                {plan.lamp.map((step) => (
                  <li key={step.fromDay}>
                    {step.hours > 0
                      ? say('web.plan.lampStep', {
                          day: sayDay(step.fromDay, today),
                          hours: Number(step.hours.toFixed(1)),
                        })
                      : say('web.plan.lampOff', { day: sayDay(step.fromDay, today) })}
                  </li>
                ))}
              </ul>
            </dd>
          </div>
        ) : null}
        {plan.notes.map((note) => (
          <div key={note.code}>
            <dt>{say(`web.plan.level.${note.level}`)}</dt>
            <dd>
              {say(note.say)}
              <Why>
                <SourceLine source={note.source} />
              </Why>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** Every dated thing to do, stage by stage. */
export function Tasks({ plan }: { readonly plan: WinterPlan }) {
  const { today } = useFigures();
  return (
    <section aria-labelledby="tasks">
      <h2 id="tasks">{say('web.plan.tasks')}</h2>
      {plan.stages.map((stage) => {
        const tasks = plan.tasks.filter((task) => task.day >= stage.fromDay && task.day <= stage.toDay);
        return (
          <section key={`${stage.name}${stage.fromDay}`}>
            <h3>
              {capital(say(`web.stage.${stage.name}`))}{' '}
              <span className="title-beside">
                {say('web.plan.until', { from: sayDay(stage.fromDay, today), to: sayDay(stage.toDay, today) })}
              </span>
            </h3>
            <p className="soft">{say(stage.purpose)}</p>
            {tasks.length > 0 ? (
              <dl className="facts">
                {tasks.map((task) => (
                  <div key={task.key}>
                    <dt>
                      {task.untilDay && task.untilDay !== task.day
                        ? say('web.plan.until', { from: sayDay(task.day, today), to: sayDay(task.untilDay, today) })
                        : sayWeekday(task.day)}
                    </dt>
                    <dd>
                      {say(task.say)}
                      <Why>
                        {task.why ? <p>{say(task.why)}</p> : null}
                        <SourceLine source={task.source} />
                      </Why>
                    </dd>
                  </div>
                ))}
              </dl>
            ) : null}
          </section>
        );
      })}
    </section>
  );
}
