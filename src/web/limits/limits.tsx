import { type FormEvent, useState } from 'react';
import { figure } from '../../measure/figures.ts';
import type { Limits, LimitWanted } from '../../schema/limits.ts';
import { checkRuleChange } from '../../winter/rule-settings.ts';
import { WATCH_RULES } from '../../winter/watch-rules.ts';
import type { RuleId, WatchRule } from '../../winter/watch-types.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { useFigures, useSession } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sayInstant } from '../parts/dates.ts';
import { Field, typedNumber } from '../parts/field.tsx';
import { Answered, Trouble } from '../parts/state.tsx';
import { SourceLine, Why } from '../parts/text.tsx';

/** The limits the watch goes by in one stay: each with its time, its source and what was changed of it. */
export function StayLimits({ stayId }: { readonly stayId: string }) {
  const [open, setOpen] = useState(false);
  const path = `stays/${stayId}/limits`;
  const limits = useAnswer<Limits>(path, open);
  return (
    <details className="why plain-why" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{say('web.limits.title')}</summary>
      {open ? <Answered of={limits}>{(kept) => <Rules path={path} kept={kept} />}</Answered> : null}
    </details>
  );
}

const ruleName = (id: RuleId) => say(`web.rule.${id}`);

function Rules({ path, kept }: { readonly path: string; readonly kept: Limits }) {
  const { zone } = useFigures();
  const told = useTold();
  return (
    <>
      <p className="soft">{say('web.limits.lead')}</p>
      <dl className="facts">
        {WATCH_RULES.filter((rule) => rule.unit !== 'event').map((rule) => {
          const own = kept.limits.find((one) => one.ruleId === rule.id);
          return (
            <div key={rule.id}>
              <dt>{ruleName(rule.id)}</dt>
              <dd>
                {told(rule, own)}
                {own ? (
                  <span className="soft"> ({say('web.limits.usual', { usual: told(rule, undefined) })})</span>
                ) : null}
                {rule.stricter === 'fixed' ? <span className="soft"> {say('web.limits.fixed')}</span> : null}{' '}
                <Why>
                  <SourceLine source={rule.source} />
                </Why>
                {rule.stricter === 'fixed' ? null : <Change path={path} rule={rule} own={own} />}
              </dd>
            </div>
          );
        })}
      </dl>
      {kept.changes.length > 0 ? (
        <>
          <h3>{say('web.limits.changes')}</h3>
          <ul className="plain">
            {kept.changes.map((one) => (
              <li key={one.at + one.change.ruleId}>
                {say('web.limits.changed', {
                  at: sayInstant(one.at, zone),
                  by: one.by,
                  rule: ruleName(one.change.ruleId as RuleId),
                  what: say(`web.limits.direction.${one.direction}`),
                })}
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </>
  );
}

/** "8 °C for 12 h", in the units of the group. */
function useTold() {
  const figures = useFigures();
  return (rule: WatchRule, own: LimitWanted | undefined) => {
    const limit = own?.limit ?? rule.limit;
    const durationS = own?.durationS ?? rule.durationS;
    const said =
      rule.unit === '°C'
        ? figures.temperature(limit)
        : rule.unit === 'K'
          ? figures.difference(limit)
          : `${figure(limit, Number.isInteger(limit) ? 0 : 1)}\u00a0${rule.unit}`;
    if (durationS === 0) return say('web.limits.rowNow', { limit: said });
    const hours = durationS / 3600;
    const duration =
      hours < 1 ? `${figure(durationS / 60)}\u00a0min` : `${figure(hours, Number.isInteger(hours) ? 0 : 1)}\u00a0h`;
    return say('web.limits.row', { limit: said, duration });
  };
}

interface ChangeProps {
  readonly path: string;
  readonly rule: WatchRule;
  readonly own: LimitWanted | undefined;
}

/** Changes one limit; says before it is saved whether it is tighter, or looser and the tutor's. */
function Change({ path, rule, own }: ChangeProps) {
  const figures = useFigures();
  const session = useSession();
  const inF = figures.temperatureUnit === '°F';
  const shown = (value: number) => {
    const told = rule.unit === '°C' && inF ? (value * 9) / 5 + 32 : rule.unit === 'K' && inF ? (value * 9) / 5 : value;
    return String(Number(told.toFixed(2)));
  };
  const [limit, setLimit] = useState(shown(own?.limit ?? rule.limit));
  const [hours, setHours] = useState(String(Number(((own?.durationS ?? rule.durationS) / 3600).toFixed(2))));
  const [trouble, setTrouble] = useState<Error>();
  const typed = typedNumber(limit);
  const typedHours = typedNumber(hours);
  const wanted = {
    limit:
      typed === undefined
        ? Number.NaN
        : rule.unit === '°C'
          ? figures.tempC(typed)
          : rule.unit === 'K' && inF
            ? (typed * 5) / 9
            : typed,
    durationS: typedHours === undefined ? Number.NaN : typedHours * 3600,
  };
  const role = session.role ?? 'tutor';
  const checked = checkRuleChange(rule.id, wanted, role);
  const send = async (body: LimitWanted) => {
    setTrouble(undefined);
    try {
      await ask(path, { method: 'PUT', body });
      await readAgain('stays');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  const unit = rule.unit === '°C' ? figures.temperatureUnit : rule.unit;
  return (
    <details className="why no-print">
      <summary>
        {say('web.limits.change')}
        <span className="unseen">: {ruleName(rule.id)}</span>
      </summary>
      <form
        onSubmit={(event: FormEvent) => {
          event.preventDefault();
          void send({ ruleId: rule.id, ...wanted });
        }}
      >
        <Field label={say('web.limits.limit')} kind="number" unit={unit} value={limit} onChange={setLimit} />
        <Field label={say('web.limits.hours')} kind="number" unit="h" value={hours} onChange={setHours} />
        <p role="status">{say(checked.say)}</p>
        {trouble ? <Trouble error={trouble} /> : null}
        <div className="actions">
          <button type="submit" className="button" disabled={!checked.allowed}>
            {say('web.limits.save')}
          </button>
          {own ? (
            <button type="button" className="button" data-kind="quiet" onClick={() => send({ ruleId: rule.id })}>
              {say('web.limits.back')}
            </button>
          ) : null}
        </div>
      </form>
    </details>
  );
}
