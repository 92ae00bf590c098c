import { type Day, daysBetween } from '../../measure/day.ts';
import type { Task, WinterPlan } from '../../winter/plan-types.ts';
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
        {(['warning', 'choice', 'note'] as const).map((level) => {
          const notes = plan.notes.filter((note) => note.level === level);
          return notes.length === 0 ? null : (
            <div key={level}>
              <dt>{say(`web.plan.level.${level}`)}</dt>
              <dd>
                <ul className="plain">
                  {notes.map((note) => (
                    <li key={`${note.code}${note.say.key}`}>
                      {say(note.say)}
                      <Why>
                        <SourceLine source={note.source} />
                      </Why>
                    </li>
                  ))}
                </ul>
              </dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}

/** The same thing to do on several days of a stage is told once, at its first day. */
function gathered(tasks: readonly Task[]): Task[][] {
  const groups = new Map<string, Task[]>();
  for (const task of tasks) {
    const key = `${task.kind} ${say(task.say)}`;
    groups.set(key, [...(groups.get(key) ?? []), task]);
  }
  return [...groups.values()];
}

/** "Wednesdays, 9 December to 24 February", "daily", or the day itself. */
function whenOf(group: readonly Task[], today: Day): string {
  const first = group[0] as Task;
  const last = group.at(-1) as Task;
  if (group.length === 1)
    return first.untilDay && first.untilDay !== first.day
      ? say('web.plan.until', { from: sayDay(first.day, today), to: sayDay(first.untilDay, today) })
      : sayWeekday(first.day);
  if (group.length === 2) return `${sayDay(first.day, today)}, ${sayDay(last.day, today)}`;
  const steps = group.slice(1).map((one, index) => daysBetween((group[index] as Task).day, one.day));
  const span = say('web.plan.until', { from: sayDay(first.day, today), to: sayDay(last.day, today) });
  if (steps.every((step) => step === 1)) return say('web.plan.daily', { span });
  if (steps.every((step) => step === 7))
    return say('web.plan.weekly', { weekday: sayWeekday(first.day).split(' ')[0] ?? '', span });
  return say('web.plan.times', { count: group.length, span });
}

/** Every dated thing to do, stage by stage. */
export function Tasks({ plan }: { readonly plan: WinterPlan }) {
  const { today } = useFigures();
  // What is past and what lies further ahead folds; printed, all of it stands open.
  const current = plan.stages.find((stage) => stage.toDay >= today) ?? plan.stages.at(-1);
  return (
    <section aria-labelledby="tasks">
      <h2 id="tasks">{say('web.plan.tasks')}</h2>
      {plan.stages.map((stage) => {
        const tasks = plan.tasks.filter((task) => task.day >= stage.fromDay && task.day <= stage.toDay);
        return (
          <details
            className="stage-tasks"
            key={`${stage.name}${stage.fromDay}`}
            open={stage.name === current?.name && stage.fromDay === current.fromDay}
          >
            <summary>
              <h3>
                {capital(say(`web.stage.${stage.name}`))}{' '}
                <span className="title-beside">
                  {say('web.plan.until', { from: sayDay(stage.fromDay, today), to: sayDay(stage.toDay, today) })}
                </span>
              </h3>
            </summary>
            <p className="soft">{say(stage.purpose)}</p>
            {tasks.length > 0 ? (
              <dl className="facts">
                {gathered(tasks).map((group) => {
                  const task = group[0] as Task;
                  return (
                    <div key={task.key}>
                      <dt>{whenOf(group, today)}</dt>
                      <dd>
                        {say(task.say)}
                        <Why>
                          {task.why ? <p>{say(task.why)}</p> : null}
                          {group.length > 2 ? <p>{group.map((one) => sayDay(one.day, today)).join(', ')}</p> : null}
                          <SourceLine source={task.source} />
                        </Why>
                      </dd>
                    </div>
                  );
                })}
              </dl>
            ) : null}
          </details>
        );
      })}
    </section>
  );
}
