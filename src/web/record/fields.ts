import type { Day } from '../../measure/day.ts';
import { instantInZone, zoneOffsetMs } from '../../measure/zone.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import { diaryKinds } from '../animals/diary.tsx';
import { healthKinds } from '../animals/health.tsx';
import { weighKinds } from '../animals/weigh-ins.tsx';
import { endReasons } from '../builder/stay-form.tsx';
import type { AnyRecord, KeptKind } from '../data/entries.ts';
import type { useFigures } from '../data/group.ts';
import { typedMass, typedNumber } from '../parts/field.tsx';

type Figures = ReturnType<typeof useFigures>;

/** A field of a kept record as it is typed on the screen. Its words are keys: they may arrive after this module. */
export interface TypedField {
  readonly name: string;
  readonly label: MessageKey;
  readonly form: 'mass' | 'length' | 'hours' | 'temperature' | 'day' | 'time' | 'lines' | 'line' | 'pick';
  readonly options?: readonly { readonly value: string; readonly label: MessageKey }[];
}

const note: TypedField = { name: 'note', label: 'web.diary.note', form: 'lines' };
const at: TypedField = { name: 'at', label: 'web.record.at', form: 'time' };
const name: TypedField = { name: 'name', label: 'web.animal.name', form: 'line' };
const pick = (
  field: string,
  label: MessageKey,
  stem: string,
  values: readonly string[],
  none?: MessageKey,
): TypedField => ({
  name: field,
  label,
  form: 'pick',
  options: [
    ...(none ? [{ value: '', label: none }] : []),
    ...values.map((value) => ({ value, label: `${stem}.${value}` as MessageKey })),
  ],
});

/** What of each kind can be changed in its line. Examinations, boxes and animals have screens of their own. */
export const FIELDS: Partial<Record<KeptKind, readonly TypedField[]>> = {
  measurement: [
    { name: 'massG', label: 'web.weigh.mass', form: 'mass' },
    { name: 'sclMm', label: 'web.weigh.length', form: 'length' },
    at,
    pick('kind', 'web.weigh.kind', 'web.weigh.kind', weighKinds),
    note,
  ],
  diary: [at, pick('kind', 'web.diary.kind', 'web.diary.kind', diaryKinds), note],
  'health-event': [
    pick('kind', 'web.health.kind', 'web.health.kind', healthKinds),
    { name: 'fromDay', label: 'web.health.from', form: 'day' },
    { name: 'toDay', label: 'web.health.to', form: 'day' },
    note,
  ],
  stay: [
    { name: 'fromDay', label: 'web.stay.firstDay', form: 'day' },
    { name: 'toDay', label: 'web.stay.lastDay', form: 'day' },
    pick('endReason', 'web.stay.reason', 'web.stay.reason', endReasons, 'web.record.noReason'),
    note,
  ],
  'task-done': [at, pick('outcome', 'web.record.outcome', 'web.record.task', ['done', 'let-go']), note],
  'gut-warmth': [
    { name: 'mealDay', label: 'web.gut.meal', form: 'day' },
    { name: 'lampHours', label: 'web.gut.lampHours', form: 'hours' },
    { name: 'lampBodyTempC', label: 'web.gut.lampTemp', form: 'temperature' },
    { name: 'nightTempC', label: 'web.gut.nightTemp', form: 'temperature' },
  ],
  place: [name],
  box: [name],
};

/** A value of a record as it is shown for typing. */
export function shownAs(field: TypedField, record: AnyRecord, figures: Figures): string {
  const value = record[field.name];
  if (value === undefined) return '';
  if (field.form === 'mass') return plain(figures.mass(value as number));
  if (field.form === 'length') return plain(figures.length(value as number));
  if (field.form === 'temperature') return plain(figures.temperature(value as number));
  if (field.form === 'time') {
    const ms = Date.parse(value as string);
    return new Date(ms + zoneOffsetMs(ms, figures.zone)).toISOString().slice(0, 16);
  }
  return String(value);
}

/** "1,240 g" as a number to type over. */
const plain = (told: string) => told.replace(/[^\d.−-]/g, '').replace('−', '-');

/**
 * The record with what was typed; a field left as it was shown keeps its exact value. `undefined` where something typed cannot be read,
 * with the field and why.
 */
export function withTyped(
  fields: readonly TypedField[],
  record: AnyRecord,
  typed: Readonly<Record<string, string>>,
  figures: Figures,
): { readonly body: AnyRecord } | { readonly where: string; readonly what: string } {
  const body: Record<string, unknown> = { ...record };
  for (const field of fields) {
    const text = typed[field.name]?.trim() ?? '';
    if (text === shownAs(field, record, figures)) continue;
    delete body[field.name];
    if (text === '') continue;
    const value = readField(field, text, figures);
    if (value === undefined) return { where: field.name, what: say('web.error.number') };
    body[field.name] = value;
  }
  // An end that a person sets is no longer that of the waking.
  if (body.toDay !== record.toDay || body.endReason !== record.endReason) delete body.endEntryId;
  if (body.toDay === undefined) delete body.endReason;
  return { body: body as AnyRecord };
}

function readField(field: TypedField, text: string, figures: Figures): string | number | undefined {
  const number = field.form === 'mass' ? typedMass(text) : typedNumber(text);
  switch (field.form) {
    case 'mass':
      return number === undefined ? undefined : figures.massG(number);
    case 'length':
      return number === undefined ? undefined : figures.lengthMm(number);
    case 'hours':
      return number;
    case 'temperature':
      return number === undefined ? undefined : figures.tempC(number);
    case 'time': {
      const [day, hour, minute] = text.split(/[T:]/);
      const hours = Number(hour) + Number(minute) / 60;
      return new Date(Math.round(instantInZone(day as Day, figures.zone, hours))).toISOString();
    }
    default:
      return text;
  }
}
