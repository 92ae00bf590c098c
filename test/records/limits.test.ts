import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { WatchService } from '../../src/notices/watch-service.ts';
import type { Database } from '../../src/records/database.ts';
import { limitsOf, setLimit } from '../../src/records/limits.ts';
import { BOX_PROBE, emptied, readBox, SLEEP_FROM_MS, scopeAt, sleepingSedge } from '../notices/given.ts';
import { id } from './given.ts';
import { freshDatabase } from './stores.ts';

const STAY = id(12);
const keeper = { role: 'keeper', name: 'Wren' } as const;
const tutor = { role: 'tutor', name: 'Ada' } as const;

describe('limits of the watch for one stay', () => {
  let database: Database;
  const scope = scopeAt(SLEEP_FROM_MS + 3_600_000);
  const set = (who: typeof keeper | typeof tutor, ruleId: string, limit?: number) =>
    setLimit(database, scope, who, STAY, { ruleId, ...(limit === undefined ? {} : { limit }) });
  beforeAll(async () => {
    database = await freshDatabase('sqlite');
  });
  beforeEach(async () => {
    await emptied(database);
    await sleepingSedge(database);
  });
  afterAll(() => database.close());

  it('are tightened by any keeper, and the change keeps who and when', async () => {
    const { limits, changes } = await set(keeper, 'under-3', 3.5);
    expect(limits).toEqual([{ ruleId: 'under-3', limit: 3.5 }]);
    expect(changes).toMatchObject([{ by: 'Wren', direction: 'tighter', at: new Date(scope.nowMs).toISOString() }]);
  });

  it('are loosened by the tutor alone, and a refusal leaves everything as it was', async () => {
    await expect(set(keeper, 'under-2', 1.5)).rejects.toMatchObject({ type: 'not-allowed' });
    expect(await limitsOf(database, scope, STAY)).toEqual({ limits: [], changes: [] });
    expect((await set(tutor, 'under-2', 1.5)).changes).toMatchObject([{ by: 'Ada', direction: 'looser' }]);
  });

  it('go back to the usual one, and the history of changes stays', async () => {
    await set(keeper, 'under-3', 3.5);
    const { limits, changes } = await set(keeper, 'under-3');
    expect(limits).toEqual([]);
    expect(changes).toHaveLength(2);
  });

  it('leave the limit of frost to nobody', async () => {
    await expect(set(tutor, 'frost', -1)).rejects.toMatchObject({ type: 'not-allowed' });
  });

  it.each([
    ['with its usual limit the watch says nothing of 3.2 °C', undefined, false],
    ['with a tighter one it speaks', 3.5, true],
  ])('%s', async (_, limit, speaks) => {
    if (limit !== undefined) await set(keeper, 'under-3', limit);
    let now = SLEEP_FROM_MS + 3_600_000;
    const watch = new WatchService(database, () => now);
    await watch.start();
    now = await readBox(
      database,
      SLEEP_FROM_MS + 600_000,
      Array.from({ length: 60 }, () => 3.2),
    );
    await watch.arrived({ probeIds: [BOX_PROBE], fromMs: SLEEP_FROM_MS + 600_000 });
    const said = await database.kysely.selectFrom('notices').select('ruleId').where('ruleId', '=', 'under-3').execute();
    expect(said.length > 0).toBe(speaks);
  });
});
