import { readFileSync } from 'node:fs';
import { openDatabase } from '../../src/records/database.ts';
import { exportToFile } from '../../src/records/export-file.ts';
import { importExport } from '../../src/records/import.ts';
import { appendReadings } from '../../src/records/readings.ts';
import { GROUP, id, SCOPE, smallGroup } from '../records/given.ts';

// Stores readings, or writes them all to an archive, or takes one in; says how many they were, how long it took and how much memory at most.
const [what = '', folder = '', path = '', count = '0'] = process.argv.slice(2);
const nowMs = Date.UTC(2030, 0, 1);
const database = await openDatabase({ dataFolder: folder });
const from = performance.now();
let readings = 0;
if (what === 'store') {
  await smallGroup(database);
  const STEP = 20_000;
  for (readings = 0; readings < Number(count); readings += STEP) {
    const batch = Array.from({ length: STEP }, (_, i) => ({
      probeId: id(3),
      at: new Date(Date.UTC(2026, 0, 1) + (readings + i) * 60_000).toISOString(),
      tempC: Math.round((6 + 4 * Math.sin((readings + i) / 700)) * 100) / 100,
      quality: 'good' as const,
      source: 'http' as const,
    }));
    await appendReadings(database, { ...SCOPE, nowMs }, batch);
  }
} else if (what === 'export') {
  const format = await exportToFile(database, { groupId: GROUP.id, nowMs }, path);
  readings = format.parts.find((part) => part.name.startsWith('readings/'))!.rows;
} else {
  const parts = await importExport(database, readFileSync(path), { nowMs });
  readings = parts.find(({ part }) => part.startsWith('readings/'))!.taken;
}
const seconds = (performance.now() - from) / 1000;
const mostBytes = process.resourceUsage().maxRSS * 1024;
await database.close();
console.log(JSON.stringify({ readings, seconds, mostBytes }));
