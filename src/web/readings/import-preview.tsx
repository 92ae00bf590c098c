import { Fragment, useState } from 'react';
import type { ImportChoices, ImportPreview } from '../../schema/import.ts';
import type { Probe } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayInstant } from '../parts/dates.ts';
import { Choice, Field, Pick } from '../parts/field.tsx';
import { ImportChart } from './import-chart.tsx';
import { Overrule } from './import-overrule.tsx';

/** Where the readings of each name of the file go: a thermometer that is there, or a new one of this name. */
export interface Goes {
  readonly probes: Readonly<Record<string, string>>;
  readonly newNames: Readonly<Record<string, string>>;
}

interface PreviewProps {
  readonly importId: string;
  readonly fileName: string;
  readonly preview: ImportPreview;
  readonly choices: ImportChoices;
  readonly probes: readonly Probe[];
  readonly onChoices: (choices: ImportChoices) => void;
  readonly onSave: (goes: Goes) => void;
  readonly onCancel: () => void;
}

const NEW = '';
const ROWS = 12;
const same = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/** What the file seems to hold, what is open, and the first rows as they would be kept. */
export function PreviewOfFile(props: PreviewProps) {
  const { importId, fileName, preview, choices, probes, onChoices, onSave, onCancel } = props;
  const { temperature, zone } = useFigures();
  const { detected, questions } = preview;
  const [targets, setTargets] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(
      detected.probes.map(({ name }) => [name, probes.find((probe) => same(probe.name, name))?.id ?? NEW]),
    ),
  );
  const [named, setNamed] = useState<Readonly<Record<string, string>>>({});
  const fresh = detected.probes.map(({ name }) => name).filter((name) => (targets[name] ?? NEW) === NEW);
  const nameOf = (name: string) => (named[name] ?? name).trim();
  const fault = (name: string) =>
    nameOf(name) === ''
      ? say('web.import.nameNeeded')
      : probes.some((probe) => same(probe.name, nameOf(name))) ||
          fresh.some((other) => other !== name && same(nameOf(other), nameOf(name)))
        ? say('web.import.nameTaken')
        : undefined;
  const faulty = fresh.some((name) => fault(name) !== undefined);
  const goes: Goes = {
    probes: Object.fromEntries(Object.entries(targets).filter(([, probeId]) => probeId !== NEW)),
    newNames: Object.fromEntries(fresh.map((name) => [name, nameOf(name)])),
  };
  return (
    <>
      <p className="import-summary">
        <strong>{fileName}</strong>: {preview.summary}
      </p>
      {questions.map((one) => (
        <div className="note" data-level="act" key={one.choice}>
          <Choice
            label={one.question}
            value=""
            onChange={(value) =>
              onChoices({
                ...choices,
                [one.choice]:
                  one.choice === 'decimalComma'
                    ? value === 'true'
                    : one.choice === 'columns'
                      ? { ...choices.columns, [value]: 'temperature' as const }
                      : value,
              })
            }
            options={one.options.map((option) => ({ value: option.value, label: option.means }))}
          />
        </div>
      ))}
      <h2>{say('web.import.detected')}</h2>
      <dl className="facts">
        {facts(preview).map(([name, what]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
      <Overrule detected={detected} choices={choices} onChoices={onChoices} />
      <ImportChart preview={preview} />
      <div className="wide">
        <table>
          <caption>
            {say('web.import.first', { count: Math.min(ROWS, preview.readings.length + preview.spans.length) })}
          </caption>
          <thead>
            <tr>
              <th scope="col">{say('web.readings.col.at')}</th>
              <th scope="col">{say('web.readings.col.probe')}</th>
              <th scope="col" data-number>
                {say('web.import.temperature')}
              </th>
            </tr>
          </thead>
          <tbody>
            {preview.readings.slice(0, ROWS).map((row) => (
              <tr key={`${row.probe} ${row.at}`}>
                <th scope="row">{sayInstant(row.at, zone)}</th>
                <td>{row.probe}</td>
                <td data-number>{temperature(row.tempC, 2)}</td>
              </tr>
            ))}
            {preview.spans.slice(0, Math.max(0, ROWS - preview.readings.length)).map((row) => (
              <tr key={`${row.probe} ${row.toAt}`}>
                <th scope="row">
                  {say('web.plan.until', { from: sayInstant(row.fromAt, zone), to: sayInstant(row.toAt, zone) })}
                </th>
                <td>{row.probe}</td>
                <td data-number>
                  {say('web.readings.span', { low: temperature(row.minC), high: temperature(row.maxC) })}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {preview.rejected > 0 ? (
        <details className="why">
          <summary>{say('web.import.rejected', { count: preview.rejected })}</summary>
          <div>
            <ul>
              {preview.rejections.slice(0, ROWS).map((one) => (
                <li key={one.line}>
                  {say('web.import.line', { line: one.line, reason: one.reason })} <code>{one.text}</code>
                </li>
              ))}
            </ul>
            <a className="button" download href={`/api/v1/imports/${importId}/rejected`}>
              {say('web.import.rejectedFile')}
            </a>
          </div>
        </details>
      ) : null}
      {preview.notes.length > 0 ? (
        <details className="why">
          <summary>{say('web.import.notes', { count: preview.notes.length })}</summary>
          <ul>
            {preview.notes.slice(0, ROWS).map((one) => (
              <li key={`${one.line} ${one.text}`}>{say('web.import.line', { line: one.line, reason: one.text })}</li>
            ))}
          </ul>
        </details>
      ) : null}
      <h2>{say('web.import.whose')}</h2>
      {detected.probes.map(({ name, readings, spans }) => (
        <Fragment key={name}>
          <Pick
            label={say('web.import.goes', { name, count: (readings + spans).toLocaleString('en-GB') })}
            value={targets[name] ?? NEW}
            onChange={(probeId) => setTargets({ ...targets, [name]: probeId })}
            options={[
              { value: NEW, label: say('web.import.newProbe') },
              ...probes.map((probe) => ({ value: probe.id, label: probe.name })),
            ]}
          />
          {fresh.includes(name) ? (
            <Field
              label={say('web.import.newName', { name })}
              value={named[name] ?? name}
              onChange={(value) => setNamed({ ...named, [name]: value })}
              error={fault(name)}
            />
          ) : null}
        </Fragment>
      ))}
      <div className="actions">
        <button
          type="button"
          className="button"
          data-kind="main"
          disabled={questions.length > 0 || preview.ready === 0 || faulty}
          onClick={() => onSave(goes)}
        >
          {say('web.import.save', { count: preview.ready.toLocaleString('en-GB') })}
        </button>
        <button type="button" className="button" data-kind="quiet" onClick={onCancel}>
          {say('web.import.drop.away')}
        </button>
        {questions.length > 0 ? <span>{say('web.import.answerFirst')}</span> : null}
      </div>
    </>
  );
}

function facts({ detected, ready, rejected, repeated }: ImportPreview): [string, string][] {
  const count = (value: number) => value.toLocaleString('en-GB');
  const names = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar', ' ': 'space' } as const;
  const delimiter = names[detected.delimiter as ','];
  return [
    [
      say('web.import.fact.rows'),
      say('web.import.rows', { ready: count(ready), rejected: count(rejected), repeated: count(repeated) }),
    ],
    [
      say('web.import.fact.time'),
      detected.from && detected.to
        ? say('web.plan.until', {
            from: sayInstant(detected.from, detected.timeZone.includes('/') ? detected.timeZone : 'UTC'),
            to: sayInstant(detected.to, detected.timeZone.includes('/') ? detected.timeZone : 'UTC'),
          })
        : say('web.import.none'),
    ],
    [
      say('web.import.fact.zone'),
      say('web.import.because', { what: detected.timeZone, why: say(`web.import.by.${detected.timeZoneBy}`) }),
    ],
    [
      say('web.import.fact.order'),
      say('web.import.because', { what: detected.dateOrder, why: say(`web.import.by.${detected.dateOrderBy}`) }),
    ],
    [
      say('web.import.fact.unit'),
      say('web.import.because', { what: detected.unit, why: say(`web.import.by.${detected.unitBy}`) }),
    ],
    [
      say('web.import.fact.writing'),
      say('web.import.writing', {
        encoding: detected.encoding,
        delimiter: delimiter ? say(`web.import.delimiter.${delimiter}`) : detected.delimiter,
        line: detected.firstDataLine,
      }),
    ],
  ];
}
