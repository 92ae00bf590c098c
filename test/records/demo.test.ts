import { afterEach, describe, expect, it } from 'vitest';
import { dayInZone } from '../../src/measure/zone.ts';
import { assessAnimal } from '../../src/records/assessing.ts';
import type { Database } from '../../src/records/database.ts';
import { loadDemonstration } from '../../src/records/demo/story.ts';
import { list } from '../../src/records/entries.ts';
import { presentGroup, saveGroup } from '../../src/records/groups.ts';
import { ANIMAL, STAY } from '../../src/records/kinds.ts';
import { roundOf } from '../../src/records/round.ts';
import { newestForecast, weatherSeries } from '../../src/records/weather.ts';
import { say } from '../../src/wording/say.ts';
import { GROUP, NOW_MS } from './given.ts';
import { freshDatabase } from './stores.ts';

describe('the demonstration group', () => {
  let database: Database;
  afterEach(() => database.close());

  // Both hemispheres, before, in and after the cold.
  it.each(['2026-09-25', '2026-11-25', '2027-01-05', '2027-03-18', '2027-05-02', '2027-07-14'])(
    'is alive and says what to do when opened on %s',
    async (day) => {
      database = await freshDatabase('sqlite');
      const nowMs = Date.parse(`${day}T10:00:00Z`);
      expect(await loadDemonstration(database, nowMs)).toBe(true);
      const group = (await presentGroup(database))!;
      expect(group).toMatchObject({ demonstration: true });
      expect(`${group.name} ${group.climateNote}`).toContain('nvented');
      const scope = { groupId: group.id, personId: null, nowMs };
      const animals = await list(database, scope, ANIMAL);
      expect(animals).toHaveLength(8);
      const verdicts = new Map<string, string>();
      for (const animal of animals) {
        const { assessment } = await assessAnimal(
          database,
          scope,
          group,
          animal.id,
          'deciding',
          dayInZone(nowMs, group.zone),
        );
        verdicts.set(animal.name, assessment.verdict);
      }
      for (const name of ['Saffron', 'Nettle', 'Comfrey']) expect(verdicts.get(name)).toBe('stay-awake');
      const round = await roundOf(database, scope, group, dayInZone(nowMs, group.zone));
      const lines = round.parts.flatMap((part) => part.lines);
      expect(lines.length + round.parts.flatMap((part) => part.stays).length).toBeGreaterThan(3);
      expect(lines.filter((line) => line.late)).toEqual([]);
      for (const line of lines) expect(say(line.say as Parameters<typeof say>[0])).toMatch(/^[A-Z].*\.$/);
      const begun = (await list(database, scope, STAY)).filter((stay) => stay.fromDay > dayInZone(nowMs, group.zone));
      expect(begun).toEqual([]);
    },
  );

  it('has animals asleep and animals winding down in the dark of the year', async () => {
    database = await freshDatabase('sqlite');
    const nowMs = Date.parse('2026-11-25T10:00:00Z');
    await loadDemonstration(database, nowMs);
    const group = (await presentGroup(database))!;
    const round = await roundOf(database, { groupId: group.id, personId: null, nowMs }, group, '2026-11-25');
    const asleep = round.parts.flatMap((part) => part.stays);
    expect(asleep.map((stay) => stay.animalName).sort()).toEqual(['Bramble', 'Sedge']);
    for (const stay of asleep) expect(stay.lastReading!.tempC).toBeGreaterThan(0);
  });

  it('brings temperatures and weather up to the present when it is opened again, each once', async () => {
    database = await freshDatabase('sqlite');
    const first = Date.parse('2026-11-25T10:00:00Z');
    await loadDemonstration(database, first);
    const later = first + 5 * 86_400_000;
    const readings = async () =>
      (await database.kysely.selectFrom('readings').select(['probe', 'atMs']).execute()).map((row) => row.atMs);
    const before = await readings();
    await loadDemonstration(database, later);
    const after = await readings();
    expect(Math.max(...before)).toBeGreaterThan(first - 3_600_000);
    expect(Math.max(...after)).toBeGreaterThan(later - 3_600_000);
    expect(after.length - before.length).toBe(6 * 5 * 48);
    const group = (await presentGroup(database))!;
    expect((await newestForecast(database, group.id))?.madeAtMs).toBe(later);
    const weather = await weatherSeries(database, group.id, later - 15 * 86_400_000, later);
    expect(weather.airTempC.length).toBeGreaterThanOrEqual(15 * 24 - 1);
    expect(weather.airTempC.some(Number.isNaN)).toBe(false);
  });

  it('is loaded once, finishes a load that was cut short, and never beside another group', async () => {
    database = await freshDatabase('sqlite');
    await loadDemonstration(database, NOW_MS);
    const count = async () => (await database.kysely.selectFrom('changes').select('id').execute()).length;
    const full = await count();
    await loadDemonstration(database, NOW_MS + 86_400_000);
    expect(await count()).toBe(full);
    await database.kysely.deleteFrom('settings').execute();
    await database.kysely.deleteFrom('plans').execute();
    await database.kysely.deleteFrom('tasksDone').execute();
    await database.kysely.deleteFrom('changes').where('kind', '=', 'task-done').execute();
    await loadDemonstration(database, NOW_MS + 86_400_000);
    expect(await count()).toBe(full);
    await database.close();
    database = await freshDatabase('sqlite');
    await saveGroup(database, GROUP, null, NOW_MS);
    expect(await loadDemonstration(database, NOW_MS)).toBe(false);
  });
});
