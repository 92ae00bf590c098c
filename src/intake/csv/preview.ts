import { figure } from '../../measure/figures.ts';
import { dayInZone } from '../../measure/zone.ts';
import type { ImportChoices, ImportPreview, ImportQuestion } from '../../schema/import.ts';
import { say } from '../../wording/say.ts';
import { type decideOrder, type decideZone, toCelsius, type UnitDecision, zoneName } from './decide.ts';
import type { DateOrder } from './moments.ts';
import type { CollectedTable } from './read-table.ts';
import type { Built, ProbeReadings } from './readings.ts';

/** Asks whatever the file could not tell by itself; each question shows the same readings read each way. */
export function askAbout(
  questions: ImportQuestion[],
  table: CollectedTable,
  openOrders: readonly DateOrder[],
  units: readonly UnitDecision[],
  conflicts: number,
  settings: { readonly nowMs: number; readonly choices?: ImportChoices },
): void {
  const choices = settings.choices ?? {};
  askAboutOrder(questions, openOrders, table, settings.nowMs);
  askAboutUnit(questions, units, table);
  if (table.columns.guessed) {
    questions.push({
      choice: 'columns',
      question: say('intake.ask.columns'),
      options: table.valueColumns.map((column) => ({
        value: String(column.at),
        means: say('intake.ask.columns.option', { number: column.at + 1, example: exampleCell(table, column.at) }),
      })),
    });
  }
  if (table.shape.torn && choices.decimalComma === undefined) {
    questions.push({
      choice: 'decimalComma',
      question: say('intake.ask.decimal-comma'),
      options: [
        {
          value: 'true',
          means: say('intake.ask.decimal-comma.yes', { example: exampleCell(table, table.valueColumns[0]?.at ?? 0) }),
        },
        { value: 'false', means: say('intake.ask.decimal-comma.no') },
      ],
    });
  }
  if (conflicts > 0 && !choices.conflicts) {
    questions.push({
      choice: 'conflicts',
      question: say('intake.ask.conflicts', { count: conflicts }),
      options: [
        { value: 'keep-first', means: say('intake.ask.conflicts.first') },
        { value: 'keep-last', means: say('intake.ask.conflicts.last') },
      ],
    });
  }
}

function exampleCell(table: CollectedTable, at: number): string {
  return (table.shape.rows[0]?.[at] ?? '').slice(0, 30);
}

function exampleLine(table: CollectedTable): string {
  return (table.shape.rows[0] ?? []).join(' ').slice(0, 60);
}

function askAboutOrder(
  questions: ImportQuestion[],
  open: readonly DateOrder[],
  table: CollectedTable,
  nowMs: number,
): void {
  if (open.length === 0) return;
  questions.push({
    choice: 'dateOrder',
    question: say('intake.ask.date-order', { example: exampleLine(table) }),
    options: open.map((order) => {
      const wall = table.moments.wall(order);
      return {
        value: order,
        means: say('intake.ask.date-order.option', {
          first: dayInZone(wall.find(Number.isFinite) ?? nowMs, 'UTC'),
          last: dayInZone(wall.findLast(Number.isFinite) ?? nowMs, 'UTC'),
        }),
      };
    }),
  });
}

function askAboutUnit(questions: ImportQuestion[], units: readonly UnitDecision[], table: CollectedTable): void {
  const column = units.findIndex((unit) => unit.by === 'open');
  if (column === -1) return;
  const written = table.values.values[column] ?? Number.NaN;
  questions.push({
    choice: 'unit',
    question: say('intake.ask.unit', { example: figure(written, table.decimals ? 1 : 0) }),
    options: (units[column]?.open ?? []).map((unit) => ({
      value: unit,
      means: say('intake.ask.unit.option', {
        celsius: figure(toCelsius(written, unit), 1),
        unit: say(`intake.unit.${unit}`),
      }),
    })),
  });
}

/** The preview of a file: everything detected, counted and rejected, and its first readings. */
export function describe(
  table: CollectedTable,
  built: Built,
  order: ReturnType<typeof decideOrder>,
  zone: ReturnType<typeof decideZone>,
  units: readonly UnitDecision[],
  newestFirst: boolean,
  questions: ImportQuestion[],
): ImportPreview {
  const ready = built.probes.reduce((sum, probe) => sum + probe.atMs.length, 0) + built.spans.length;
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (const probe of built.probes) {
    from = Math.min(from, probe.atMs[0] ?? from);
    to = Math.max(to, probe.atMs.at(-1) ?? to);
  }
  for (const span of built.spans) {
    from = Math.min(from, span.fromMs);
    to = Math.max(to, span.toMs);
  }
  const iso = (ms: number) => new Date(ms).toISOString();
  const names = new Map<string, { readings: number; spans: number; low: number; high: number }>();
  const noted = (name: string) => {
    const found = names.get(name) ?? {
      readings: 0,
      spans: 0,
      low: Number.POSITIVE_INFINITY,
      high: Number.NEGATIVE_INFINITY,
    };
    names.set(name, found);
    return found;
  };
  for (const probe of built.probes) {
    const one = noted(probe.probe);
    one.readings += probe.atMs.length;
    for (const value of probe.tempC) {
      if (value < one.low) one.low = value;
      if (value > one.high) one.high = value;
    }
  }
  for (const span of built.spans) {
    const one = noted(span.probe);
    one.spans += 1;
    one.low = Math.min(one.low, span.minC);
    one.high = Math.max(one.high, span.maxC);
  }
  const first = built.probes.flatMap((probe) =>
    Array.from({ length: Math.min(8, probe.atMs.length) }, (_, at) => ({
      probe: probe.probe,
      at: iso(probe.atMs[at]!),
      tempC: probe.tempC[at]!,
      ...(Number.isNaN(probe.humidity[at]!) ? {} : { humidity: Math.round(probe.humidity[at]! * 1e4) / 1e4 }),
    })),
  );
  return {
    detected: {
      encoding: table.encoding.name,
      encodingBy: table.encoding.by,
      delimiter: table.shape.delimiter,
      timeZone: zoneName(zone.zone),
      timeZoneBy: zone.by,
      dateOrder: order.order,
      dateOrderBy: order.by,
      unit: units[0]?.unit ?? 'C',
      unitBy: units[0]?.by ?? 'plausible',
      firstDataLine: table.shape.firstRow + 1,
      columns: table.columns.all.map((column) => ({ at: column.at, name: column.name, role: column.role })),
      probes: [...names].map(([name, one]) => ({
        name,
        readings: one.readings,
        spans: one.spans,
        lowestC: Number.isFinite(one.low) ? one.low : null,
        highestC: Number.isFinite(one.high) ? one.high : null,
      })),
      newestFirst,
      usualStepS: usualStep(built.probes),
      from: Number.isFinite(from) ? iso(from) : null,
      to: Number.isFinite(to) ? iso(to) : null,
    },
    ready,
    rejected: table.rejected,
    repeated: built.repeated,
    notes: table.notes.slice(0, 50),
    rejections: built.rejections
      .slice(0, 50)
      .map((one) => ({ line: one.line, text: one.text, reason: say(one.reason) })),
    questions,
    readings: first,
    spans: built.spans.slice(0, 8).map((span) => ({
      probe: span.probe,
      fromAt: iso(span.fromMs),
      toAt: iso(span.toMs),
      maxC: span.maxC,
      minC: span.minC,
    })),
    summary: say('intake.summary', {
      ready: figure(ready),
      all: figure(ready + table.rejected),
      first: built.rejections[0]
        ? say('intake.summary.first', { line: built.rejections[0].line, reason: say(built.rejections[0].reason) })
        : '',
    }).trim(),
  };
}

function usualStep(probes: readonly ProbeReadings[]): number | null {
  const steps = new Map<number, number>();
  for (const probe of probes) {
    for (let at = 1; at < Math.min(probe.atMs.length, 5000); at += 1) {
      const step = Math.round((probe.atMs[at]! - probe.atMs[at - 1]!) / 1000);
      steps.set(step, (steps.get(step) ?? 0) + 1);
    }
  }
  return [...steps].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}
