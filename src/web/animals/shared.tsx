import { useParams } from '@tanstack/react-router';
import type { Animal } from '../../schema/animal.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Examination } from '../../schema/examination.ts';
import type { HealthEvent } from '../../schema/health-event.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Photograph } from '../../schema/photograph.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import { useAnswer } from '../data/queries.ts';
import { sayDayYear, sayInstant, today } from '../parts/dates.ts';
import { Answered, Trouble } from '../parts/state.tsx';
import { captionOf, newestFirst } from '../photographs/picture.ts';
import { about } from './about.ts';
import { hasLeft, sayLeft } from './whereabouts.ts';

interface SharedRecord {
  readonly forWhom: string;
  readonly until: string;
  readonly history: {
    readonly animal: Animal;
    readonly measurements: readonly Measurement[];
    readonly examinations: readonly Examination[];
    readonly healthEvents: readonly HealthEvent[];
    readonly diary: readonly DiaryEntry[];
    readonly photographs: readonly Photograph[];
  };
}

/** One animal's record as the holder of a link reads it: on one page, on the clock of the reader's own device. */
export function Shared() {
  const { token } = useParams({ from: '/shared/$token' });
  const record = useAnswer<SharedRecord>(`shared/${token}`);
  if (record.error && !record.data)
    return (
      <>
        <h1>{say('web.shared.none')}</h1>
        <p className="lead">{say('web.shared.noneDo')}</p>
        <Trouble error={record.error} again={record.refetch} />
      </>
    );
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return (
    <Answered of={record}>
      {({ forWhom, until, history }) => (
        <>
          <h1>{say('web.shared.title', { name: history.animal.name })}</h1>
          <p className="lead">{about(history.animal, history.animal.leftOn ?? today(zone))}</p>
          {hasLeft(history.animal) ? <p>{sayLeft(history.animal)}</p> : null}
          <p className="soft">{say('web.shared.lead', { whom: forWhom, until: sayInstant(until, zone) })}</p>
          <Part
            title={say('web.weigh.list')}
            rows={history.measurements.map((one) => [
              one.id,
              sayInstant(one.at, zone),
              [one.massG ? `${one.massG} g` : '', one.sclMm ? `${one.sclMm} mm` : '', one.note ?? '']
                .filter(Boolean)
                .join(', '),
            ])}
          />
          <Part
            title={say('web.health.title')}
            rows={history.healthEvents.map((one) => [
              one.id,
              sayDayYear(one.fromDay),
              [say(`web.health.kind.${one.kind}`), one.note ?? ''].filter(Boolean).join(': '),
            ])}
          />
          <Part
            title={say('web.exam.list')}
            rows={history.examinations.map((one) => [
              one.id,
              sayInstant(one.at, zone),
              Object.entries(one.findings)
                .map(
                  ([part, found]) =>
                    `${say(`web.exam.part.${part}` as MessageKey)} ${[found]
                      .flat()
                      .map((code) => say(`web.finding.${code}` as MessageKey))
                      .join(' + ')}`,
                )
                .join(', '),
            ])}
          />
          <Pictures list={newestFirst(history.photographs)} token={token} name={history.animal.name} />
          <Part
            title={say('web.diary.title')}
            rows={history.diary.map((one) => [
              one.id,
              sayInstant(one.at, zone),
              [say(`web.diary.kind.${one.kind}`), one.note ?? ''].filter(Boolean).join(': '),
            ])}
          />
        </>
      )}
    </Answered>
  );
}

interface PicturesProps {
  readonly list: readonly Photograph[];
  readonly token: string;
  readonly name: string;
}

function Pictures({ list, token, name }: PicturesProps) {
  if (list.length === 0) return null;
  return (
    <section>
      <h2>{say('web.photo.title')}</h2>
      <ul className="photos">
        {list.map((one) => (
          <li key={one.id}>
            <img
              src={`/api/v1/shared/${token}/photographs/${one.id}/image`}
              alt={captionOf(one, name)}
              loading="lazy"
              className="photo"
            />
            <p className="small">
              {one.takenOn ? sayDayYear(one.takenOn) : say('web.photo.noDay')}
              {one.note ? `: ${one.note}` : ''}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Part({
  title,
  rows,
}: {
  readonly title: string;
  readonly rows: readonly (readonly [string, string, string])[];
}) {
  if (rows.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <dl className="facts">
        {[...rows].reverse().map(([id, when, what]) => (
          <div key={id}>
            <dt>{when}</dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
