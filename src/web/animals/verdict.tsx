import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { EXAMINATION_PARTS } from '../../tortoise/examination.ts';
import type { Assessment, Gate, Moment } from '../../tortoise/types.ts';
import { say } from '../../wording/say.ts';
import { Problem } from '../data/client.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Choice } from '../parts/field.tsx';
import { Answered } from '../parts/state.tsx';
import { capital, SourceLine, Why } from '../parts/text.tsx';

/** May it go down? The verdict, what is in the way, how long, and every check with its ground. */
export function VerdictPart({ animalId, goingDown }: { readonly animalId: string; readonly goingDown: boolean }) {
  const [moment, setMoment] = useState<Moment>(goingDown ? 'going-down' : 'deciding');
  const assessment = useAnswer<Assessment>(`animals/${animalId}/assessment?moment=${moment}`);
  const cannot = assessment.error instanceof Problem && assessment.error.status < 500 ? assessment.error : undefined;
  return (
    <section aria-labelledby="verdict">
      <h2 id="verdict">{say('web.verdict.title')}</h2>
      {cannot && !assessment.data ? (
        <p>
          {say('web.verdict.cannot', { why: cannot.message })} {say('web.verdict.needsWeighing')}
        </p>
      ) : (
        <Answered of={assessment}>{(found) => <Told assessment={found} animalId={animalId} />}</Answered>
      )}
      <Choice
        label={say('web.verdict.moment')}
        value={moment}
        onChange={setMoment}
        options={[
          { value: 'deciding', label: say('web.verdict.deciding') },
          { value: 'going-down', label: say('web.verdict.going-down') },
        ]}
      />
    </section>
  );
}

function Told({ assessment, animalId }: { readonly assessment: Assessment; readonly animalId: string }) {
  const passed = assessment.gates.filter((gate) => gate.state === 'passes');
  const inTheWay = assessment.gates.filter((gate) => gate.state !== 'passes');
  const { length } = assessment;
  return (
    <>
      <p className="verdict">{say(`web.verdict.${assessment.verdict}`)}</p>
      <dl className="facts">
        {inTheWay.length > 0 ? (
          <div>
            <dt>{say('web.verdict.needed')}</dt>
            <dd>
              <InTheWay gates={inTheWay} />
              <Link to="/animals/$animalId/examination" params={{ animalId }}>
                {say('web.animal.examine')}
              </Link>
            </dd>
          </div>
        ) : null}
        <div>
          <dt>{say('web.verdict.length')}</dt>
          <dd>
            {length.suggestedDays > 0
              ? say('web.verdict.lengthText', { suggested: length.suggestedDays, ceiling: length.ceilingDays })
              : say('web.verdict.noLength')}
            <Why>
              {length.reasons.map((reason) => (
                <p key={reason.key}>{say(reason)}</p>
              ))}
              <p>
                {say('web.verdict.advice')}: {say(`web.verdict.advice.${length.advice}`)}
              </p>
              <SourceLine source={length.source} />
            </Why>
          </dd>
        </div>
      </dl>
      <details className="why">
        <summary>
          {say('web.verdict.passed', { count: passed.length })}. {say('web.verdict.every')}
        </summary>
        <div>
          <Gates gates={assessment.gates} />
        </div>
      </details>
      {assessment.cautions.map((caution) => (
        <p className="small soft" key={caution.key}>
          {say(caution)}
        </p>
      ))}
    </>
  );
}

/** The gravest first; parts that nobody has looked at yet in one sentence instead of eight. */
function InTheWay({ gates }: { readonly gates: readonly Gate[] }) {
  const isPart = (gate: Gate) => (EXAMINATION_PARTS as readonly string[]).includes(gate.name);
  const notLooked = gates.filter((gate) => gate.state === 'not-yet-known' && isPart(gate));
  const others = gates.filter((gate) => !notLooked.includes(gate));
  const order = ['fails', 'borderline', 'not-yet-known', 'passes'];
  return (
    <ul className="plain">
      {[...others]
        .sort((a, b) => order.indexOf(a.state) - order.indexOf(b.state))
        .map((gate) => (
          <li key={gate.name}>
            {gate.state === 'not-yet-known' ? null : <strong>{capital(say(`web.gate.${gate.state}`))}: </strong>}
            {say(gate.reason)}
          </li>
        ))}
      {notLooked.length > 0 ? (
        <li>
          {say('web.verdict.notLooked', {
            parts: notLooked.map((gate) => say(`web.gate.name.${gate.name}`).toLowerCase()).join(', '),
          })}
        </li>
      ) : null}
    </ul>
  );
}

function Gates({ gates }: { readonly gates: readonly Gate[] }) {
  return (
    <dl className="facts">
      {gates.map((gate) => (
        <div key={gate.name}>
          <dt>
            {say(`web.gate.name.${gate.name}`)}: {say(`web.gate.${gate.state}`)}
          </dt>
          <dd>
            {say(gate.reason)}
            <SourceLine source={gate.source} />
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** Condition by length, by the animal's own history, and the ratio keepers know. */
export function ConditionPart({ animalId }: { readonly animalId: string }) {
  const assessment = useAnswer<Assessment>(`animals/${animalId}/assessment?moment=deciding`);
  const figures = useFigures();
  const condition = assessment.data?.condition;
  if (!condition) return null;
  const share = (index: number) => `${Math.round(10 ** index * 100)} %`;
  return (
    <section aria-labelledby="condition">
      <h2 id="condition">{say('web.condition.title')}</h2>
      <dl className="facts">
        <div>
          <dt>{say('web.condition.judged')}</dt>
          <dd>
            {say(condition.reason)}
            <Why>
              {condition.notes.map((note) => (
                <p key={note.key}>{say(note)}</p>
              ))}
              <p>{say('web.condition.noise')}</p>
              <SourceLine source={condition.source} />
            </Why>
          </dd>
        </div>
        {condition.expectedMassG !== undefined && condition.conditionIndex !== undefined ? (
          <div>
            <dt>{say('web.condition.expected')}</dt>
            <dd>
              {say('web.condition.expectedText', {
                mass: figures.mass(condition.expectedMassG),
                share: share(condition.conditionIndex),
              })}
            </dd>
          </div>
        ) : null}
        {condition.ownExpectedMassG !== undefined && condition.ownConditionIndex !== undefined ? (
          <div>
            <dt>{say('web.condition.own')}</dt>
            <dd>
              {say('web.condition.expectedText', {
                mass: figures.mass(condition.ownExpectedMassG),
                share: share(condition.ownConditionIndex),
              })}
            </dd>
          </div>
        ) : null}
        <div>
          <dt>{say('web.condition.jackson')}</dt>
          <dd>{Number.isFinite(condition.jacksonRatio) ? condition.jacksonRatio.toFixed(3) : say('web.notKnown')}</dd>
        </div>
      </dl>
    </section>
  );
}
