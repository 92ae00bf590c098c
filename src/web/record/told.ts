import type { BoxDescription, PlaceDescription } from '../../heat/description.ts';
import { dayInZone } from '../../measure/zone.ts';
import type { Animal } from '../../schema/animal.ts';
import type { DiaryEntry } from '../../schema/diary.ts';
import type { Examination } from '../../schema/examination.ts';
import type { GutWarmth } from '../../schema/gut-warmth.ts';
import type { HealthEvent } from '../../schema/health-event.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import type { Measurement } from '../../schema/measurement.ts';
import type { Photograph } from '../../schema/photograph.ts';
import type { Stay } from '../../schema/stay.ts';
import type { TaskDone } from '../../schema/task.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import { about } from '../animals/about.ts';
import type { StoredPlan } from '../animals/records.ts';
import { hasLeft, sayLeft } from '../animals/whereabouts.ts';
import type { KeptKind } from '../data/entries.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { sayDayYear, sayInstant } from '../parts/dates.ts';
import { sayMessage } from '../parts/text.tsx';
import { tellBox, tellPlace } from './told-housing.ts';

const withNote = (text: string, note: string | undefined) => (note ? `${text}: ${note}` : text);

/** One kept record in a line of words, whatever its kind: for the record, its history and what was deleted. */
export function useTold(animalId?: string) {
  const figures = useFigures();
  const boxes = useAnswer<readonly BoxRecord[]>('boxes').data ?? [];
  const plans = useAnswer<readonly StoredPlan[]>(`animals/${animalId}/plans`, animalId !== undefined).data ?? [];
  const day = (at: string) => dayInZone(Date.parse(at), figures.zone);

  const measured = (one: Measurement) =>
    withNote(
      [
        one.massG === undefined ? '' : figures.mass(one.massG),
        one.sclMm === undefined ? '' : figures.length(one.sclMm),
        say(`web.weigh.kind.${one.kind}`),
      ]
        .filter(Boolean)
        .join(', '),
      one.note,
    );
  const examined = (one: Examination) => {
    const found = Object.entries(one.findings).map(([part, codes]) => {
      const seen = [codes].flat().map((code) => say(`web.finding.${code}` as MessageKey));
      return `${say(`web.exam.part.${part}` as MessageKey).toLowerCase()} ${seen.join(' + ')}`;
    });
    return withNote([say(`web.exam.moment.${one.moment}`), ...found].join(', '), one.note);
  };
  const stayed = (one: Stay) => {
    const box = boxes.find(({ id }) => id === one.boxId)?.name ?? '…';
    const from = sayDayYear(one.fromDay);
    const why = one.endReason ? say(`web.stay.reason.${one.endReason}`) : '';
    const told = one.toDay
      ? say('web.record.stayOver', { box, from, to: sayDayYear(one.toDay) })
      : say('web.record.stayOpen', { box, from });
    return withNote(why ? `${told} (${why})` : told, one.note);
  };
  const ticked = (one: TaskDone) => {
    const task = plans.flatMap(({ plan }) => plan.tasks).find(({ key }) => key === one.taskKey);
    const outcome = say(one.outcome === 'done' ? 'web.record.task.done' : 'web.record.task.let-go');
    return withNote(`${outcome}: ${task ? sayMessage(task.say) : sayDayYear(one.day)}`, one.note);
  };

  /** What it says. */
  const told = (kind: KeptKind, record: unknown): string => {
    switch (kind) {
      case 'measurement':
        return measured(record as Measurement);
      case 'examination':
        return examined(record as Examination);
      case 'diary': {
        const one = record as DiaryEntry;
        return withNote(say(`web.diary.kind.${one.kind}`), one.note);
      }
      case 'health-event': {
        const one = record as HealthEvent;
        const until = one.toDay
          ? ` (${say('web.health.span', { from: sayDayYear(one.fromDay), to: sayDayYear(one.toDay) })})`
          : '';
        return withNote(`${say(`web.health.kind.${one.kind}`)}${until}`, one.note);
      }
      case 'stay':
        return stayed(record as Stay);
      case 'task-done':
        return ticked(record as TaskDone);
      case 'photograph':
        return (record as Photograph).note ?? say('web.entry.photograph');
      case 'gut-warmth': {
        const one = record as GutWarmth;
        return say('web.record.warmth', {
          day: sayDayYear(one.mealDay),
          hours: one.lampHours,
          lamp: figures.temperature(one.lampBodyTempC),
          night: figures.temperature(one.nightTempC),
        });
      }
      case 'animal': {
        const one = record as Animal;
        const rest = [one.microchip, one.marks, one.legalPaper, one.notes].filter(Boolean).join('; ');
        const left = hasLeft(one) ? withNote(sayLeft(one), one.leftNote) : '';
        return [withNote(`${one.name}, ${about(one, figures.today)}`, rest || undefined), left]
          .filter(Boolean)
          .join('. ');
      }
      case 'place': {
        const one = record as PlaceRecord;
        return `${one.name}, ${tellPlace(one.description as unknown as PlaceDescription, figures.temperature)}`;
      }
      case 'box': {
        const one = record as BoxRecord;
        return `${one.name}, ${tellBox(one.description as unknown as BoxDescription)}`;
      }
      default:
        return (record as { name: string }).name;
    }
  };
  /** When it was, for the beginning of a line. */
  const when = (kind: KeptKind, record: unknown): string => {
    const one = record as { at?: string; fromDay?: string; takenOn?: string };
    if (kind === 'task-done' || kind === 'measurement') return one.at ? sayDayYear(day(one.at)) : '';
    if (one.at) return sayInstant(one.at, figures.zone);
    const only = one.fromDay ?? one.takenOn;
    return only ? sayDayYear(only) : '';
  };
  return { told, when };
}
