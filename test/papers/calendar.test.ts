import { execFileSync } from 'node:child_process';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/measure/day.ts';
import { type CalendarPlan, calendarOf } from '../../src/papers/calendar.ts';
import type { WinterPlan } from '../../src/winter/plan-types.ts';
import { adult, planned } from '../winter/plan-cases.ts';

const plan = planned({ ...adult, sleepDay: '2026-11-28' });
const sedge: CalendarPlan = {
  animalId: '01980d2e-7c00-7000-8000-000000000001',
  animalName: 'Sedge',
  plan,
  revision: 2,
  madeAtMs: Date.parse('2026-09-20T18:05:00Z'),
};

const events = (text: string) =>
  new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((component) => ({
    component,
    event: new ICAL.Event(component),
  }));

describe('the calendar', () => {
  const text = calendarOf('Winter plans', [sedge]);

  it('holds each thing to do and each stretch once, as whole days', () => {
    const found = events(text);
    expect(found).toHaveLength(plan.tasks.length + plan.stages.length);
    expect(new Set(found.map(({ event }) => event.uid)).size).toBe(found.length);
    for (const task of plan.tasks) {
      const { event } = found.find(({ event: one }) => one.uid === `stillwinter-${sedge.animalId}-2026-${task.key}`)!;
      expect(event.startDate.isDate).toBe(true);
      expect(event.startDate.toString()).toBe(task.day);
      expect(event.endDate.toString()).toBe(addDays(task.day, 1));
      expect(event.summary).toMatch(/^Sedge: .{4,}/);
      expect(event.description).toContain('Source: ');
    }
    const asleep = found.find(({ event }) => event.uid.endsWith('stage-asleep'))!.event;
    const stage = plan.stages.find(({ name }) => name === 'asleep')!;
    expect(asleep.startDate.toString()).toBe(stage.fromDay);
    expect(asleep.endDate.toString()).toBe(addDays(stage.toDay, 1));
  });

  it('is stamped by its revision, in UTC, and never by the clock', () => {
    for (const { component } of events(text)) {
      expect(component.getFirstPropertyValue('dtstamp')!.toString()).toBe('2026-09-20T18:05:00Z');
      expect(component.getFirstPropertyValue('sequence')).toBe(2);
    }
    expect(calendarOf('Winter plans', [sedge])).toBe(text);
  });

  it('ends in a line break, breaks lines by CRLF alone and keeps them within 75 octets', () => {
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  });

  it('moves an event with the plan and cancels what the plan no longer holds', () => {
    const moved = planned({ ...adult, sleepDay: '2026-12-05' });
    const shorter: WinterPlan = { ...moved, tasks: moved.tasks.filter((task) => task.key !== plan.tasks[3]!.key) };
    const later = { ...sedge, plan: shorter, revision: 3, earlier: [plan] };
    const found = events(calendarOf('Winter plans', [later]));
    const cancelled = found.filter(({ component }) => component.getFirstPropertyValue('status') === 'CANCELLED');
    expect(cancelled.map(({ event }) => event.uid)).toContain(
      `stillwinter-${sedge.animalId}-2026-${plan.tasks[3]!.key}`,
    );
    expect(new Set(found.map(({ event }) => event.uid)).size).toBe(found.length);
    for (const { component } of found) expect(component.getFirstPropertyValue('sequence')).toBe(3);
    const putDown = found.find(({ event }) => event.uid.endsWith('-put-down'))!.event;
    expect(putDown.startDate.toString()).toBe(moved.tasks.find((task) => task.key === 'put-down')!.day);
  });

  it('lets no name break out of its line', () => {
    const name = 'Želva; "A, B"\\\r\nDTSTART:20200101\r\nEND:VEVENT';
    const found = events(calendarOf(name, [{ ...sedge, animalName: name }]));
    expect(found).toHaveLength(plan.tasks.length + plan.stages.length);
    expect(found.every(({ event }) => event.startDate.year >= 2026)).toBe(true);
    expect(found[0]!.event.summary).toContain('Želva; "A, B"\\');
  });

  it('is the same text in every zone the machine may stand in', () => {
    const script = `import { calendarOf } from './src/papers/calendar.ts';
      let text = ''; for await (const chunk of process.stdin) text += chunk;
      process.stdout.write(calendarOf('Winter plans', [JSON.parse(text)]));`;
    for (const TZ of ['America/New_York', 'Pacific/Auckland', 'Europe/London']) {
      const made = execFileSync(process.execPath, ['--input-type=module', '-e', script], {
        input: JSON.stringify(sedge),
        env: { ...process.env, TZ },
        encoding: 'utf8',
      });
      expect(made).toBe(text);
    }
  });
});
