import { type ReactNode, useId } from 'react';
import type { ProblemError } from '../data/client.ts';

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly help?: ReactNode;
  readonly error?: string | undefined;
  readonly unit?: string;
  readonly kind?: 'text' | 'number' | 'day' | 'time' | 'lines' | 'passphrase' | 'new-passphrase' | 'email';
  readonly numeral?: boolean;
  readonly name?: string;
  readonly autoComplete?: string;
  readonly required?: boolean;
}

const inputTypes: Partial<Record<NonNullable<FieldProps['kind']>, string>> = {
  day: 'date',
  time: 'datetime-local',
  passphrase: 'password',
  'new-passphrase': 'password',
  email: 'email',
};
const completions: Partial<Record<NonNullable<FieldProps['kind']>, string>> = {
  passphrase: 'current-password',
  'new-passphrase': 'new-password',
  email: 'email',
};

/** A labelled input with its help and its error where they belong. Numbers are kept as typed: nothing is swallowed. */
export function Field(props: FieldProps) {
  const id = useId();
  const { label, value, onChange, help, error, unit, kind = 'text' } = props;
  const shared = {
    id,
    name: props.name,
    value,
    className: 'input',
    'aria-invalid': error ? true : undefined,
    'aria-describedby': [help ? `${id}h` : '', error ? `${id}e` : ''].filter(Boolean).join(' ') || undefined,
    'aria-required': props.required ? true : undefined,
    autoComplete: props.autoComplete ?? completions[kind] ?? 'off',
    'data-numeral': props.numeral ? '' : undefined,
  } as const;
  return (
    <div className="field">
      <label htmlFor={id}>
        {label}
        {unit ? <span className="unseen">, {unit}</span> : null}
      </label>
      <div className="with-unit">
        {kind === 'lines' ? (
          <textarea {...shared} onChange={(event) => onChange(event.target.value)} />
        ) : (
          <input
            {...shared}
            type={inputTypes[kind] ?? 'text'}
            inputMode={kind === 'number' ? 'decimal' : undefined}
            onChange={(event) => onChange(event.target.value)}
          />
        )}
        {unit ? (
          <span className="unit" aria-hidden="true">
            {unit}
          </span>
        ) : null}
      </div>
      <HelpAndError id={id} help={help} error={error} />
    </div>
  );
}

function HelpAndError(props: { readonly id: string; readonly help: ReactNode; readonly error: string | undefined }) {
  return (
    <>
      {props.help ? (
        <p className="field-help" id={`${props.id}h`}>
          {props.help}
        </p>
      ) : null}
      {props.error ? (
        <p className="field-error" id={`${props.id}e`} role="alert">
          {props.error}
        </p>
      ) : null}
    </>
  );
}

interface ChoiceProps<V extends string> {
  readonly label: string;
  readonly value: V | '';
  readonly options: readonly { readonly value: V; readonly label: string }[];
  readonly onChange: (value: V) => void;
  readonly help?: ReactNode;
  readonly error?: string | undefined;
}

/** A few answers of which one holds: all in sight, each a full-sized target. */
export function Choice<V extends string>({ label, value, options, onChange, help, error }: ChoiceProps<V>) {
  const id = useId();
  return (
    <fieldset aria-describedby={error ? `${id}e` : help ? `${id}h` : undefined}>
      <legend>{label}</legend>
      <div className="choices">
        {options.map((option) => (
          <span className="choice" key={option.value}>
            <input
              type="radio"
              name={id}
              checked={value === option.value}
              onChange={() => onChange(option.value)}
              aria-label={option.label}
            />
            <span aria-hidden="true">{option.label}</span>
          </span>
        ))}
      </div>
      <HelpAndError id={id} help={help} error={error} />
    </fieldset>
  );
}

/** Many answers of which one holds: the device's own list. */
export function Pick<V extends string>({ label, value, options, onChange, help, error }: ChoiceProps<V>) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="input"
        value={value}
        onChange={(event) => onChange(event.target.value as V)}
        aria-invalid={error ? true : undefined}
        aria-describedby={error ? `${id}e` : help ? `${id}h` : undefined}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
      <HelpAndError id={id} help={help} error={error} />
    </div>
  );
}

/** The sentence that belongs to the field `where`, from the server's or the form's list of errors. */
export function errorAt(errors: readonly ProblemError[], where: string): string | undefined {
  return errors.find((error) => error.where === where || error.where.startsWith(`${where}.`))?.what;
}

/** A number as typed by hand: decimal comma or point, spaces and a unit ignored. Undefined when there is none. */
export function typedNumber(text: string): number | undefined {
  const cleaned = text.replace(/[\s\u00a0\u202f]/g, '').replace(/[−–]/g, '-');
  const match = /^(-?\d+(?:[.,]\d+)?)(?:g|kg|mm|cm|°?c|°?f|%|in|oz|l)?$/i.exec(cleaned);
  return match ? Number(match[1]?.replace(',', '.')) : undefined;
}

/** A mass as typed: commas that part groups of three, as the screens write thousands themselves, are no decimal comma. */
export function typedMass(text: string): number | undefined {
  return typedNumber(text.trim().replace(/^([1-9]\d{0,2}(?:,\d{3})+)(?!\d)/, (grouped) => grouped.replaceAll(',', '')));
}
