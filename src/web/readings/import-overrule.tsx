import { useState } from 'react';
import type { ImportChoices, ImportPreview } from '../../schema/import.ts';
import { say } from '../../wording/say.ts';
import { Field, Pick } from '../parts/field.tsx';

interface OverruleProps {
  readonly detected: ImportPreview['detected'];
  readonly choices: ImportChoices;
  readonly onChoices: (choices: ImportChoices) => void;
}

type Role = NonNullable<ImportChoices['columns']>[string];
const roles: readonly Role[] = [
  'moment',
  'date',
  'time',
  'temperature',
  'maximum',
  'minimum',
  'humidity',
  'probe',
  'ignored',
];
const orders = ['ymd', 'dmy', 'mdy', 'ydm'] as const;
const units = ['C', 'F', 'K', 'tenths-C', 'thousandths-C'] as const;

/** What was worked out can be set by hand; the file is then read anew. */
export function Overrule({ detected, choices, onChoices }: OverruleProps) {
  const [zone, setZone] = useState(detected.timeZone);
  return (
    <details className="why">
      <summary>{say('web.import.overrule')}</summary>
      <div className="columns">
        <Pick
          label={say('web.import.fact.order')}
          value={(orders.find((order) => order === detected.dateOrder) ?? '') as (typeof orders)[number] | ''}
          onChange={(dateOrder) => dateOrder && onChoices({ ...choices, dateOrder })}
          options={[
            { value: '' as const, label: say('web.drift.choose') },
            ...orders.map((value) => ({ value, label: say(`web.import.order.${value}`) })),
          ]}
        />
        <Pick
          label={say('web.import.fact.unit')}
          value={(units.find((unit) => unit === detected.unit) ?? '') as (typeof units)[number] | ''}
          onChange={(unit) => unit && onChoices({ ...choices, unit })}
          options={[
            { value: '' as const, label: say('web.drift.choose') },
            ...units.map((value) => ({ value, label: say(`web.import.unit.${value}`) })),
          ]}
        />
        <form
          onSubmit={(event) => {
            event.preventDefault();
            onChoices({ ...choices, zone: zone.trim() });
          }}
        >
          <Field
            label={say('web.import.fact.zone')}
            help={say('web.import.zoneHelp')}
            value={zone}
            onChange={setZone}
          />
          <button type="submit" className="button">
            {say('web.import.readAnew')}
          </button>
        </form>
        {detected.columns.map((column) => (
          <Pick
            key={column.at}
            label={say('web.import.column', { name: column.name || String(column.at + 1) })}
            value={(roles.find((role) => role === column.role) ?? 'ignored') as Role}
            onChange={(role) => onChoices({ ...choices, columns: { ...choices.columns, [String(column.at)]: role } })}
            options={roles.map((value) => ({ value, label: say(`web.import.role.${value}`) }))}
          />
        ))}
      </div>
    </details>
  );
}
