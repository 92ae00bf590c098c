import { Link, useLocation, useParams } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { type Day, daysBetween } from '../../measure/day.ts';
import type { Animal } from '../../schema/animal.ts';
import type { GutWarmth } from '../../schema/gut-warmth.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Stay } from '../../schema/stay.ts';
import type { Assessment } from '../../tortoise/types.ts';
import { begunBy } from '../../winter/begun.ts';
import { warmthInForce, withWarmth } from '../../winter/gut-course.ts';
import { makePlan } from '../../winter/plan.ts';
import { massLimitFor } from '../../winter/plan-forecasts.ts';
import type { PlanOutcome, PlanRequest, WinterPlan } from '../../winter/plan-types.ts';
import { say } from '../../wording/say.ts';
import { about } from '../animals/about.ts';
import { lineFacts } from '../animals/line-facts.ts';
import { planInForce, type StoredPlan, useBoxDays } from '../animals/records.ts';
import { hasLeft, type LeftAnimal, sayLeft } from '../animals/whereabouts.ts';
import { ask } from '../data/client.ts';
import { useWithWaiting } from '../data/entries.ts';
import { useFigures, useGroup } from '../data/group.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { sayDayYear, sayInstant } from '../parts/dates.ts';
import { Field } from '../parts/field.tsx';
import { Answered, Remembered, Trouble } from '../parts/state.tsx';
import { SourceLine, Why } from '../parts/text.tsx';
import { useWinter } from '../waking/use-winter.ts';
import { WinterLine } from '../winter-line/winter-line.tsx';
import { Gut } from './gut.tsx';
import { MovePlan } from './move-plan.tsx';
import { WhatMoved } from './moved.tsx';
import { Reasons, Tasks } from './plan-facts.tsx';
import { type MovedTo, moveBy, WentOtherwise } from './went-otherwise.tsx';

export function PlanScreen() {
  const { animalId } = useParams({ from: '/plans/$animalId' });
  const path = `animals/${animalId}`;
  const animal = useAnswer<Animal>(path);
  const measurements = useAnswer<readonly Measurement[]>(`${path}/measurements`);
  const plans = useAnswer<readonly StoredPlan[]>(`${path}/plans`);
  const assessment = useAnswer<Assessment>(`${path}/assessment?moment=deciding`);
  return (
    <Answered of={animal}>
      {(found) => (
        <Answered of={measurements}>
          {(weighed) => (
            <Answered of={plans}>
              {(kept) =>
                hasLeft(found) ? (
                  <NoMore animal={found} />
                ) : assessment.data ? (
                  <Planner
                    key={found.id}
                    animal={found}
                    measurements={weighed}
                    kept={kept}
                    assessment={assessment.data}
                  />
                ) : assessment.error ? (
                  <NotYet animal={found} why={assessment.error.message} />
                ) : (
                  <p className="soft">{say('web.reading')}</p>
                )
              }
            </Answered>
          )}
        </Answered>
      )}
    </Answered>
  );
}

/** An animal that died or left has no winter to plan. */
function NoMore({ animal }: { readonly animal: LeftAnimal }) {
  return (
    <>
      <Heading animal={animal} />
      <p className="lead">{sayLeft(animal)}</p>
      <div className="actions">
        <Link to="/animals/$animalId" params={{ animalId: animal.id }} className="button">
          {animal.name}
        </Link>
      </div>
    </>
  );
}

function Heading({ animal }: { readonly animal: Animal }) {
  const { today } = useFigures();
  return (
    <div className="title">
      <h1>{say('web.plan.title', { name: animal.name })}</h1>
      <span className="title-beside">{about(animal, today)}</span>
    </div>
  );
}

function NotYet({ animal, why }: { readonly animal: Animal; readonly why: string }) {
  return (
    <>
      <Heading animal={animal} />
      <p className="lead">{say('web.plan.noWeighing')}</p>
      <p className="soft">{why}</p>
      <Link to="/animals/$animalId" params={{ animalId: animal.id }} hash="weigh" className="button" data-kind="main">
        {say('web.plan.weigh')}
      </Link>
    </>
  );
}

interface PlannerProps {
  readonly animal: Animal;
  readonly measurements: readonly Measurement[];
  readonly kept: readonly StoredPlan[];
  readonly assessment: Assessment;
}

function Planner({ animal, measurements, kept, assessment }: PlannerProps) {
  const group = useGroup();
  const { today } = useFigures();
  const warmths = useAnswer<readonly GutWarmth[]>(`animals/${animal.id}/gut-warmth`).data ?? [];
  const hash = useLocation({ select: (at) => at.hash });
  const winter = useWinter(animal.id);
  const last = planInForce(kept);
  // A winter that is over, or looked back on, hands its lessons to the next one.
  const next = last && (last.plan.toDay < today || hash === 'next') ? winter.summary : undefined;
  const saved = next ? undefined : last;
  const sorted = [...kept].sort((a, b) => (a.madeAt < b.madeAt ? 1 : -1));
  const latest = (name: 'sclMm' | 'massG') =>
    [...measurements].sort((a, b) => (a.at < b.at ? 1 : -1)).find((one) => one[name] !== undefined)?.[name];
  const sclMm = latest('sclMm');
  const massG = latest('massG');
  const [change, setChange] = useState<Partial<PlanRequest>>({});
  const [otherwise, setOtherwise] = useState<MovedTo>();
  const gutClearDay = otherwise?.gutClearDay;
  const back = () => {
    setChange({});
    setOtherwise(undefined);
  };
  const take = (to: MovedTo) => {
    setChange((before) => ({ ...before, sleepDay: to.sleepDay, sleepDays: to.sleepDays }));
    setOtherwise(to);
  };
  const base = useMemo<PlanRequest | undefined>(() => {
    if (sclMm === undefined) return undefined;
    return (
      saved?.request ?? {
        ...next?.next,
        species: animal.species,
        sclMm,
        ...(massG === undefined ? {} : { massG }),
        latitudeDeg: group.latitudeDeg,
        ...(group.climateNormals ? { climateNormals: group.climateNormals } : {}),
      }
    );
  }, [saved, next, animal.species, sclMm, massG, group]);
  const warmth = warmthInForce(useWithWaiting('gut-warmth', animal.id, warmths), today);
  const moved = Object.keys(change).length > 0;
  const outcome = useMemo<PlanOutcome | undefined>(() => {
    if (!base) return undefined;
    if (saved && !moved) return { outcome: 'planned', plan: saved.plan };
    const request = withWarmth({ ...base, ...change }, warmth);
    const begun = saved && begunBy(saved.plan, request, today);
    return makePlan(request, assessment, {
      today,
      ...(begun ? { begun } : {}),
      ...(gutClearDay ? { gutClearDay } : {}),
      ...(massG === undefined ? {} : { massLimit: massLimitFor(massG) }),
    });
  }, [base, change, moved, saved, assessment, today, massG, gutClearDay, warmth]);

  const known = { today, ...(massG === undefined ? {} : { massLimit: massLimitFor(massG) }) };
  if (!base || !outcome) return <NotYet animal={animal} why="" />;
  const shown = outcome.outcome === 'planned' ? outcome.plan : outcome.instead;
  return (
    <>
      <Heading animal={animal} />
      <Remembered path={`animals/${animal.id}/plans`} zone={group.zone} />
      {outcome.outcome === 'refused' ? (
        <Refused outcome={outcome} take={(request) => setChange({ ...request })} />
      ) : (
        <Lead plan={outcome.plan} />
      )}
      {next ? (
        <div className="note">
          <p>{say('web.waking.nextLead')}</p>
          <ul className="plain">
            {next.lessons.map((one) => (
              <li key={one.key}>{say(one)}</li>
            ))}
          </ul>
        </div>
      ) : null}
      {shown ? <Line animal={animal} plan={shown} measurements={measurements} /> : null}
      <MovePlan
        request={{ ...base, ...change }}
        plan={outcome.outcome === 'planned' ? outcome.plan : undefined}
        onChange={(part) => setChange((before) => ({ ...before, ...part }))}
      />
      {saved?.plan.sleepDay && saved.plan.kind !== 'awake' ? (
        <WentOtherwise plan={saved.plan} assessment={assessment} context={known} onMove={take} />
      ) : null}
      {moved || !saved ? (
        <SavePlan
          key={otherwise?.why ?? ''}
          animalId={animal.id}
          request={{ ...base, ...change }}
          possible={outcome.outcome === 'planned'}
          first={!saved}
          onSaved={back}
          {...(otherwise ? { because: otherwise } : {})}
          {...(saved ? { onBack: back } : {})}
        />
      ) : null}
      {moved && saved && outcome.outcome === 'planned' ? <WhatMoved before={saved.plan} after={outcome.plan} /> : null}
      {shown ? (
        <>
          {shown.sleepDay && today < shown.sleepDay ? (
            <Gut
              animalId={animal.id}
              plan={shown}
              {...(saved?.plan.sleepDay
                ? {
                    onNotClear: (clearDay: Day) => {
                      const to = moveBy(
                        { kind: 'gut-not-clear', clearDay },
                        { plan: saved.plan, assessment, context: known },
                      );
                      if (typeof to !== 'string') take(to);
                    },
                  }
                : {})}
            />
          ) : null}
          <Reasons plan={shown} />
          <Tasks plan={shown} />
        </>
      ) : null}
      {sorted.length > 1 ? (
        <Why label={say('web.plan.history')}>
          <ul className="plain">
            {sorted.map((one) => (
              <li key={one.id}>
                {say('web.plan.revision', { at: sayInstant(one.madeAt, group.zone), reason: one.reason })}
              </li>
            ))}
          </ul>
        </Why>
      ) : null}
      <div className="actions">
        <button type="button" className="button" onClick={() => print()}>
          {say('web.print')}
        </button>
        <Link to="/animals/$animalId" params={{ animalId: animal.id }} className="button" data-kind="quiet">
          {say('web.plan.toAnimal', { name: animal.name })}
        </Link>
      </div>
    </>
  );
}

function Lead({ plan }: { readonly plan: WinterPlan }) {
  return (
    <p className="lead">
      {plan.sleepDay && plan.wakeDay
        ? say('web.plan.lead', {
            from: sayDayYear(plan.sleepDay),
            to: sayDayYear(plan.wakeDay),
            nights: say('web.animal.nights', { count: daysBetween(plan.sleepDay, plan.wakeDay) }),
          })
        : say('web.plan.awakeLead')}
      {plan.provisional ? ` ${say('web.plan.provisional')}` : ''}
    </p>
  );
}

function Refused(props: {
  readonly outcome: Extract<PlanOutcome, { outcome: 'refused' }>;
  readonly take: (request: PlanRequest) => void;
}) {
  return (
    <div className="note" data-level="act" role="status">
      <p>
        <strong>{say('web.plan.refused')}.</strong>
      </p>
      {props.outcome.reasons.map((reason) => (
        <div key={reason.code}>
          <p>{say(reason.say)}</p>
          <SourceLine source={reason.source} />
        </div>
      ))}
      {props.outcome.options.map((option) => (
        <p key={option.code}>
          {say(option.say)}{' '}
          <button type="button" className="button" onClick={() => props.take(option.request)}>
            {say('web.plan.take')}
          </button>
        </p>
      ))}
    </div>
  );
}

interface LineProps {
  readonly animal: Animal;
  readonly plan: WinterPlan;
  readonly measurements: readonly Measurement[];
}

function Line({ animal, plan, measurements }: LineProps) {
  const figures = useFigures();
  const stays = useAnswer<readonly Stay[]>('stays').data ?? [];
  const stay = stays.find((one) => one.animalId === animal.id && (!one.toDay || one.toDay >= figures.today));
  const temperatures = useBoxDays(stay, plan.fromDay, figures.zone);
  return (
    <WinterLine
      title={say('web.line.title', { name: animal.name })}
      facts={lineFacts({
        plan,
        today: figures.today,
        zone: figures.zone,
        measurements,
        temperatures,
        mass: figures.mass,
        temperature: figures.temperature,
      })}
    />
  );
}

function SavePlan(props: {
  readonly animalId: string;
  readonly request: PlanRequest;
  readonly possible: boolean;
  readonly first: boolean;
  readonly onSaved: () => void;
  readonly onBack?: () => void;
  /** What happened that moved it. */
  readonly because?: MovedTo;
}) {
  const id = useMemo(() => uuidv7(), []);
  const [reason, setReason] = useState(props.because?.why ?? (props.first ? say('web.plan.reasonFirst') : ''));
  const [trouble, setTrouble] = useState<Error>();
  const save = async () => {
    setTrouble(undefined);
    try {
      await ask(`animals/${props.animalId}/plans`, {
        method: 'POST',
        body: {
          id,
          request: props.request,
          reason: reason.trim(),
          ...(props.because?.gutClearDay ? { gutClearDay: props.because.gutClearDay } : {}),
        },
      });
      await readAgain(`animals/${props.animalId}`, 'round');
      props.onSaved();
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <div className="note no-print">
      {props.first ? null : <p role="status">{say('web.plan.moved')}</p>}
      {trouble ? <Trouble error={trouble} /> : null}
      <Field label={say('web.plan.reason')} help={say('web.plan.reasonHelp')} value={reason} onChange={setReason} />
      <div className="actions">
        <button type="button" className="button" data-kind="main" disabled={!props.possible} onClick={save}>
          {say('web.plan.save')}
        </button>
        {props.onBack ? (
          <button type="button" className="button" data-kind="quiet" onClick={props.onBack}>
            {say('web.plan.back')}
          </button>
        ) : null}
      </div>
    </div>
  );
}
