import { type FormEvent, useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import { figure } from '../../measure/figures.ts';
import { celsiusToFahrenheit, fahrenheitToCelsius } from '../../measure/units.ts';
import type { Group } from '../../schema/group.ts';
import { say } from '../../wording/say.ts';
import { ask, Problem, type ProblemError } from '../data/client.ts';
import { queryClient } from '../data/queries.ts';
import { Choice, errorAt, Field, typedNumber } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';

interface Typed {
  readonly name: string;
  readonly zone: string;
  readonly latitude: string;
  readonly longitude: string;
  readonly temperatureUnit: Group['temperatureUnit'];
  readonly massUnit: Group['massUnit'];
  readonly lengthUnit: Group['lengthUnit'];
  readonly lengthAdvice: Group['lengthAdvice'];
  readonly normals: readonly { readonly max: string; readonly min: string }[];
  readonly climateNote: string;
}

/** As a keeper types it: a tenth of a degree is all that normals are published in. */
const inUnit = (tempC: number, unit: Group['temperatureUnit'] = 'C'): string =>
  figure(unit === 'F' ? celsiusToFahrenheit(tempC) : tempC, 1)
    .replace('\u2212', '-')
    .replace(/\.0$/, '');
const inC = (typed: number, unit: Group['temperatureUnit']): number =>
  unit === 'F' ? Math.round(fahrenheitToCelsius(typed) * 1000) / 1000 : typed;
/** What was typed in one unit, in the other; what is no number stays as it is. */
const turned = (text: string, to: Group['temperatureUnit']): string => {
  const value = typedNumber(text);
  return value === undefined ? text : inUnit(to === 'F' ? value : fahrenheitToCelsius(value), to);
};

const months = Array.from({ length: 12 }, (_, index) =>
  new Intl.DateTimeFormat('en-GB', { month: 'long', timeZone: 'UTC' }).format(Date.UTC(2001, index, 1)),
);

interface FormProps {
  readonly known?: Group;
  readonly action: string;
  /** What is said after saving, kept by whoever shows the form: it begins anew with what was saved. */
  readonly told?: readonly [said: string, say: (said: string) => void];
}

/** Where the group is, its units and its climate: once at the beginning, and later in Settings. */
export function GroupForm({ known, action, told }: FormProps) {
  const id = useMemo(() => known?.id ?? uuidv7(), [known]);
  const [typed, setTyped] = useState<Typed>(() => ({
    name: known?.name ?? '',
    zone: known?.zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
    latitude: known ? String(known.latitudeDeg) : '',
    longitude: known ? String(known.longitudeDeg) : '',
    temperatureUnit: known?.temperatureUnit ?? 'C',
    massUnit: known?.massUnit ?? 'g',
    lengthUnit: known?.lengthUnit ?? 'mm',
    lengthAdvice: known?.lengthAdvice ?? 'uk-joint-2016',
    normals: Array.from({ length: 12 }, (_, index) => {
      const month = known?.climateNormals?.[index];
      const shown = (tempC: number | undefined) => (tempC === undefined ? '' : inUnit(tempC, known?.temperatureUnit));
      return { max: shown(month?.maxC), min: shown(month?.minC) };
    }),
    climateNote: known?.climateNote ?? '',
  }));
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const [trouble, setTrouble] = useState<Error>();
  const own = useState('');
  const [said, setSaid] = told ?? own;
  const change = (part: Partial<Typed>) => {
    setSaid('');
    setTyped((before) => ({ ...before, ...part }));
  };

  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    const wrong: ProblemError[] = [];
    const numberOf = (where: 'latitude' | 'longitude') => {
      const value = typedNumber(typed[where]);
      if (value === undefined)
        wrong.push({ where, what: say(typed[where].trim() === '' ? 'web.error.needed' : 'web.error.number') });
      return value ?? 0;
    };
    if (typed.name.trim() === '') wrong.push({ where: 'name', what: say('web.error.needed') });
    const latitudeDeg = numberOf('latitude');
    const longitudeDeg = numberOf('longitude');
    const anyNormal = typed.normals.some((month) => month.max.trim() !== '' || month.min.trim() !== '');
    const climateNormals = typed.normals.map((month, index) => {
      const max = typedNumber(month.max);
      const min = typedNumber(month.min);
      if (anyNormal && max === undefined) wrong.push({ where: `normals[${index}].max`, what: say('web.error.number') });
      if (anyNormal && min === undefined) wrong.push({ where: `normals[${index}].min`, what: say('web.error.number') });
      const unit = typed.temperatureUnit;
      return { maxC: inC(max ?? 0, unit), minC: inC(min ?? 0, unit) };
    });
    setErrors(wrong);
    if (wrong.length > 0) return;
    const body = {
      id,
      name: typed.name.trim(),
      zone: typed.zone.trim(),
      latitudeDeg,
      longitudeDeg,
      temperatureUnit: typed.temperatureUnit,
      massUnit: typed.massUnit,
      lengthUnit: typed.lengthUnit,
      lengthAdvice: typed.lengthAdvice,
      ...(anyNormal ? { climateNormals } : {}),
      ...(typed.climateNote.trim() === '' ? {} : { climateNote: typed.climateNote.trim() }),
      ...(known?.demonstration ? { demonstration: true } : {}),
      ...(known?.revision ? { revision: known.revision } : {}),
    };
    try {
      await ask('group', { method: 'PUT', body });
      await queryClient.invalidateQueries();
      setSaid(say('web.saved'));
    } catch (problem) {
      setTrouble(problem as Error);
      if (problem instanceof Problem)
        setErrors(
          problem.errors.map((one) => ({
            ...one,
            where: one.where.replace('Deg', '').replace('climateNormals', 'normals').replace(/C$/, ''),
          })),
        );
    }
  };
  const field = (name: 'name' | 'zone' | 'latitude' | 'longitude' | 'climateNote') => ({
    value: typed[name],
    onChange: (value: string) => change({ [name]: value }),
    error: errorAt(errors, name),
  });
  const unit = `°${typed.temperatureUnit}`;
  const units = <V extends string>(values: readonly V[]) => values.map((value) => ({ value, label: value }));
  return (
    <form onSubmit={submit} noValidate>
      {trouble ? <Trouble error={trouble} /> : null}
      <div className="columns">
        <div>
          <Field label={say('web.settings.name')} required {...field('name')} />
          <Field label={say('web.settings.zone')} help={say('web.settings.zoneHelp')} {...field('zone')} />
          <Field label={say('web.settings.latitude')} kind="number" {...field('latitude')} />
          <Field label={say('web.settings.longitude')} kind="number" {...field('longitude')} />
        </div>
        <div>
          <Choice
            label={say('web.settings.temperatureUnit')}
            value={typed.temperatureUnit}
            onChange={(temperatureUnit) => {
              if (temperatureUnit === typed.temperatureUnit) return;
              change({
                temperatureUnit,
                normals: typed.normals.map(({ max, min }) => ({
                  max: turned(max, temperatureUnit),
                  min: turned(min, temperatureUnit),
                })),
              });
            }}
            options={[
              { value: 'C', label: '°C' },
              { value: 'F', label: '°F' },
            ]}
          />
          <Choice
            label={say('web.settings.massUnit')}
            value={typed.massUnit}
            onChange={(massUnit) => change({ massUnit })}
            options={units(['g', 'oz'] as const)}
          />
          <Choice
            label={say('web.settings.lengthUnit')}
            value={typed.lengthUnit}
            onChange={(lengthUnit) => change({ lengthUnit })}
            options={units(['mm', 'in'] as const)}
          />
          <Choice
            label={say('web.settings.lengthAdvice')}
            help={say('web.settings.lengthAdviceHelp')}
            value={typed.lengthAdvice}
            onChange={(lengthAdvice) => change({ lengthAdvice })}
            options={(['uk-joint-2016', 'german-chamber', 'common-practice'] as const).map((value) => ({
              value,
              label: say(`web.verdict.advice.${value}`),
            }))}
          />
        </div>
      </div>
      <details
        className="why normals"
        open={known !== undefined || errors.some((one) => one.where.startsWith('normals'))}
      >
        <summary>{say('web.settings.normals')}</summary>
        <div>
          <p className="field-help">{say('web.settings.normalsHelp', { unit })}</p>
          <table>
            <thead>
              <tr>
                <th scope="col">{say('web.settings.month')}</th>
                <th scope="col">{say('web.settings.max', { unit })}</th>
                <th scope="col">{say('web.settings.min', { unit })}</th>
              </tr>
            </thead>
            <tbody>
              {months.map((month, index) => (
                <tr key={month}>
                  <th scope="row">{month}</th>
                  {(['max', 'min'] as const).map((which) => {
                    const error = errorAt(errors, `normals[${index}].${which}`);
                    return (
                      <td key={which}>
                        <input
                          className="input"
                          inputMode="decimal"
                          aria-label={`${month}, ${say(`web.settings.${which}`, { unit })}`}
                          aria-invalid={error ? true : undefined}
                          value={typed.normals[index]?.[which] ?? ''}
                          onChange={(event) =>
                            change({
                              normals: typed.normals.map((one, at) =>
                                at === index ? { ...one, [which]: event.target.value } : one,
                              ),
                            })
                          }
                        />
                        {error ? <span className="field-error">{error}</span> : null}
                      </td>
                    );
                  })}
                </tr>
              ))}
            </tbody>
          </table>
          <Field label={say('web.settings.climateNote')} {...field('climateNote')} />
        </div>
      </details>
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {action}
        </button>
        <span role="status">{said}</span>
      </div>
    </form>
  );
}
