import sharp from 'sharp';
import { v7 as uuidv7 } from 'uuid';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dayInWords } from '../../src/measure/day-words.ts';
import { type AnimalRecords, animalRecords, stayReadings, verdictToday } from '../../src/papers/animal-records.ts';
import { diarySheet } from '../../src/papers/diary-sheet.ts';
import { diaryView } from '../../src/papers/diary-view.ts';
import { handout } from '../../src/papers/handout.ts';
import { boxLabel } from '../../src/papers/label.ts';
import { labelView } from '../../src/papers/label-view.ts';
import { portraitOf } from '../../src/papers/portrait.ts';
import { vetSummary } from '../../src/papers/vet-summary.ts';
import { type VetView, vetView } from '../../src/papers/vet-view.ts';
import type { Database } from '../../src/records/database.ts';
import { loadDemonstration } from '../../src/records/demo/story.ts';
import { list } from '../../src/records/entries.ts';
import { presentGroup } from '../../src/records/groups.ts';
import { ANIMAL } from '../../src/records/kinds.ts';
import { keepPhotograph } from '../../src/records/photographs.ts';
import { WHAT_IS_NORMAL } from '../../src/winter/what-is-normal.ts';
import { WHAT_TO_DO } from '../../src/winter/what-to-do.ts';
import { say } from '../../src/wording/say.ts';
import { freshDatabase } from '../records/stores.ts';
import { readBack, squeeze } from './read-back.ts';

const NOW_MS = Date.parse('2026-12-20T12:00:00Z');
const ORIGIN = 'http://shed.local:8190';

describe('papers of a recorded animal', () => {
  let database: Database;
  let sedge: AnimalRecords;
  let view: VetView;

  beforeAll(async () => {
    database = await freshDatabase('sqlite');
    await loadDemonstration(database, NOW_MS);
    const group = (await presentGroup(database))!;
    const scope = { groupId: group.id, personId: null, nowMs: NOW_MS };
    const found = (await list(database, scope, ANIMAL)).find((animal) => animal.name === 'Sedge')!;
    sedge = await animalRecords(database, scope, group, found.id);
    view = vetView(
      sedge,
      await verdictToday(database, scope, sedge),
      await stayReadings(database, scope, sedge),
      NOW_MS,
    );
  }, 60_000);
  afterAll(() => database.close());

  it('box label: one A6 page with both limits in grams, the days, and the address as a square', async () => {
    const label = labelView(sedge, ORIGIN, NOW_MS);
    const start = sedge.measurements.findLast((one) => one.kind === 'start')!.massG!;
    // 8 % and 10 % of 1,151 g by hand: 1,058.9 g and 1,035.9 g.
    expect(start).toBe(1151);
    expect([label.planLimit, label.endLimit]).toEqual(['1,059\u00a0g', '1,036\u00a0g']);
    for (const [size, short] of [
      ['A6', 297.6],
      ['A5', 419.5],
    ] as const) {
      const read = await readBack(await boxLabel(label, size));
      expect(read.pages).toBe(1);
      expect(read.heightPt).toBeCloseTo(short, 0);
      for (const text of [
        label.species,
        label.startMass!,
        label.planLimit!,
        label.endLimit!,
        label.sleepDay!,
        label.wakeDay!,
      ])
        expect(read.text).toContain(squeeze(text));
      expect(read.alts.join()).toContain(`${ORIGIN}/animals/${sedge.animal.id}`);
      expect(read.roles).toContain('H1');
    }
  });

  it('box label and summary for the vet: the photograph chosen for the animal, else the newest, told in words; still one page', async () => {
    const scope = { groupId: sedge.group.id, personId: null, nowMs: NOW_MS };
    const animalId = sedge.animal.id;
    expect(await portraitOf(database, scope, sedge)).toBeUndefined();
    const ids = [uuidv7(), uuidv7()] as const;
    for (const [i, [takenOn, width, height]] of (
      [
        ['2026-10-04', 800, 400],
        ['2026-09-01', 300, 600],
      ] as const
    ).entries()) {
      const bytes = await sharp({ create: { width, height, channels: 3, background: '#7a6f48' } })
        .jpeg()
        .toBuffer();
      await keepPhotograph(database, scope, { id: ids[i]!, animalId, takenOn }, bytes);
    }
    const pictured = await animalRecords(database, scope, sedge.group, animalId);
    const newest = await portraitOf(database, scope, pictured);
    expect(newest).toMatchObject({
      widthPx: 800,
      heightPx: 400,
      alt: `Photograph of Sedge of ${dayInWords('2026-10-04')}`,
    });
    const chosen = await portraitOf(database, scope, {
      ...pictured,
      animal: { ...pictured.animal, photographId: ids[1] },
    });
    expect(chosen).toMatchObject({ widthPx: 300, heightPx: 600 });
    for (const portrait of [newest!, chosen!]) {
      const label = await boxLabel({
        ...labelView(pictured, ORIGIN, NOW_MS, portrait),
        animalName: 'Sedge of the Long Meadow',
      });
      for (const paper of [label, await vetSummary({ ...view, portrait })]) {
        const read = await readBack(paper);
        expect(read.pages).toBe(1);
        expect(read.alts).toContain(portrait.alt);
        expect(paper.includes(Buffer.from(portrait.image))).toBe(true);
      }
    }
  });

  it('box label: leaves lines to write on when nothing was weighed, and no invented limit', async () => {
    const label = labelView({ ...sedge, measurements: [] }, ORIGIN, NOW_MS);
    expect(label.startMass ?? label.planLimit ?? label.endLimit).toBeUndefined();
    expect((await readBack(await boxLabel(label))).text).toContain(squeeze(say('papers.label.limitsOpen')));
  });

  it('diary sheet: a line a week from the first night to the waking, weights expected ahead and known ones filled in', async () => {
    const diary = diaryView(sedge, sedge.plan!, NOW_MS);
    const { sleepDay, wakeDay } = sedge.plan!.plan;
    expect(diary.lines[0]!.day).toBe(sleepDay);
    expect(diary.lines.at(-1)!.day).toBe(wakeDay);
    expect(diary.lines.filter((line) => line.weighed).length).toBeGreaterThanOrEqual(5);
    const ahead = diary.lines.filter((line) => line.day > '2026-12-20');
    const lows = ahead.map((line) => Number(line.expected!.split(' ')[0]!.replace(',', '')));
    expect(lows).toEqual([...lows].sort((a, b) => b - a));
    expect(lows.every((low) => low < 1135 && low > 1036)).toBe(true);
    const read = await readBack(await diarySheet(diary));
    expect(read.pages).toBe(1);
    expect(read.count('TR')).toBe(diary.lines.length + 1);
    for (const line of ahead) expect(read.text).toContain(squeeze(line.expected!));
  });

  it('summary for the vet: one page with identity, verdict, weights, worst temperatures and examinations', async () => {
    const read = await readBack(await vetSummary(view));
    expect(read.pages).toBe(1);
    for (const text of [
      view.species,
      view.verdict,
      view.condition!,
      ...view.winter,
      view.temperatures[0]!,
      view.examinations[0]!,
      view.health[0]!,
    ])
      expect(read.text).toContain(squeeze(text));
    for (const cell of view.weights[0]!) expect(read.text).toContain(squeeze(cell));
    expect(read.roles).toEqual(expect.arrayContaining(['H1', 'H2', 'Table', 'TH', 'TD', 'L', 'LI']));
    for (const none of ['\u0000', '[?]']) expect(read.text).not.toContain(none);
  });

  it('summary for the vet: tells the coldest and warmest reading of the stay, and no share above what was read', async () => {
    const [range] = view.temperatures;
    expect(range).toMatch(/coldest −?[\d.]+\u00a0°C \(\d+\u00a0\w+\u00a02026\), warmest [\d.]+\u00a0°C/);
    // Read every half hour since midnight of the first day: every hour counts, not each reading's share of a drawing.
    const stay = sedge.stays[0]!;
    const [from, to] = [
      Date.parse(`${stay.fromDay}T00:00Z`),
      Math.min(NOW_MS, Date.parse(`${stay.toDay ?? '2027-12-31'}T24:00Z`)),
    ];
    const hours = Number(/of ([\d,]+) hours read/.exec(range!)![1]!.replace(',', ''));
    expect(hours / ((to - from) / 3_600_000)).toBeGreaterThan(0.95);
    expect(hours / ((to - from) / 3_600_000)).toBeLessThanOrEqual(1);
    const spoilt = vetView(sedge, undefined, [{ stayId: sedge.stays[0]!.id }], NOW_MS);
    expect(spoilt.temperatures[0]).toContain('no readings');
    expect(spoilt.verdict).toBe(say('papers.vet.noVerdict'));
  });

  it('summary for the vet: stays one page with hundreds of records and very long notes, and says how many it left out', async () => {
    const many = (lines: readonly string[]) => Array.from({ length: 300 }, (_, i) => `${lines[0] ?? 'Looked at'} ${i}`);
    const long = 'Želva pije žízeň. '.repeat(60);
    const full = {
      ...view,
      identity: [...view.identity, ['Marks', long] as const],
      weights: Array.from({ length: 300 }, () => [...view.weights[0]!.slice(0, 5), long]),
      notices: many(view.notices).map((line) => line + long),
      examinations: many(view.examinations),
      health: many(view.health),
      diary: many(view.diary).map((line) => line + long),
    };
    const read = await readBack(await vetSummary(full));
    expect(read.pages).toBe(1);
    expect(read.text).toMatch(/\d+moreareintherecords/);
  });

  it('are the same bytes for the same records and the same instant', async () => {
    for (const draw of [
      () => vetSummary(view),
      () => boxLabel(labelView(sedge, ORIGIN, NOW_MS)),
      () => diarySheet(diaryView(sedge, sedge.plan!, NOW_MS)),
      () => handout(NOW_MS),
    ])
      expect((await draw()).equals(await draw())).toBe(true);
  });
});

describe('the workshop handout', () => {
  it('holds everything that is normal and every page of what to do, in two pages', async () => {
    const read = await readBack(await handout(NOW_MS));
    expect(read.pages).toBe(2);
    for (const row of WHAT_IS_NORMAL) {
      expect(read.text).toContain(squeeze(say(row.normal)));
      expect(read.text).toContain(squeeze(say(row.notNormal)));
    }
    for (const page of WHAT_TO_DO)
      for (const key of [page.title, page.when, ...page.steps, page.call, ...page.cautions])
        expect(read.text).toContain(squeeze(say(key)));
    expect(read.count('H3')).toBe(WHAT_TO_DO.length);
  });
});
