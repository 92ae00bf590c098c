import type { DryRunProbe } from '../../heat/calibration-house.ts';
import type { Probe, ReadingChart, SingleReading } from '../../schema/reading.ts';
import { ask } from '../data/client.ts';
import type { DryRun } from './calibration.worker.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Weather before the first reading, so that the house starts from a state that follows from it. */
const WARM_UP_DAYS = 5;
const MOST_PAGES = 20;
const PAGE = 5000;

const iso = (ms: number) => new Date(ms).toISOString();

/** Everything that was read in a dry run: the probes with what counts of them, and outdoors by the hour. */
export async function readDryRun(
  probes: readonly { readonly probe: Probe; readonly kind: DryRunProbe }[],
  outdoors: Probe,
  fromMs: number,
  toMs: number,
): Promise<Pick<DryRun, 'weather' | 'probes'>> {
  const startMs = Math.floor((fromMs - WARM_UP_DAYS * DAY_MS) / HOUR_MS) * HOUR_MS;
  const hours = Math.ceil((toMs - startMs) / HOUR_MS) + 1;
  const airTempC = await outdoorsByHour(outdoors, startMs, hours);
  return {
    weather: { startMs, airTempC },
    probes: await Promise.all(
      probes.map(async ({ probe, kind }) => {
        const points = await readingsThatCount(probe, fromMs, toMs);
        const { maxMin } = await ask<ReadingChart>(
          `readings?probeId=${probe.id}&from=${iso(fromMs)}&to=${iso(toMs)}&buckets=2`,
        );
        return {
          kind,
          atMs: points.map(([atMs]) => atMs),
          tempC: points.map(([, tempC]) => tempC),
          spans: maxMin
            .map(({ fromAt, toAt, maxC, minC }) => ({ fromMs: Date.parse(fromAt), toMs: Date.parse(toAt), maxC, minC }))
            .filter((span) => span.fromMs >= fromMs && span.toMs <= toMs),
        };
      }),
    ),
  };
}

async function outdoorsByHour(outdoors: Probe, startMs: number, hours: number): Promise<(number | null)[]> {
  const byHour: (number | null)[] = Array.from({ length: hours }, () => null);
  const sums = new Map<number, { sum: number; count: number }>();
  for (let from = 0; from < hours; from += 40 * 24) {
    const to = Math.min(hours, from + 40 * 24);
    const chart = await ask<ReadingChart>(
      `readings?probeId=${outdoors.id}&from=${iso(startMs + from * HOUR_MS)}&to=${iso(startMs + to * HOUR_MS)}&buckets=4000`,
    );
    // A sample stands for the instant on the hour: the mean of half an hour on each side of it.
    chart.atMs.forEach((atMs, index) => {
      const hour = Math.round((atMs + (chart.bucketMs > 1 ? chart.bucketMs / 2 : 0) - startMs) / HOUR_MS);
      if (hour < 0 || hour >= hours) return;
      const known = sums.get(hour) ?? { sum: 0, count: 0 };
      sums.set(hour, { sum: known.sum + (chart.meanC[index] as number), count: known.count + 1 });
    });
  }
  for (const [hour, { sum, count }] of sums) byHour[hour] = sum / count;
  return byHour;
}

/** Instants and temperatures that count: corrections applied, what was left out or is suspect dropped. */
async function readingsThatCount(probe: Probe, fromMs: number, toMs: number): Promise<[number, number][]> {
  const found: [number, number][] = [];
  let nextMs = fromMs;
  for (let page = 0; page < MOST_PAGES && nextMs < toMs; page++) {
    const list = await ask<readonly SingleReading[]>(
      `readings/single?probeId=${probe.id}&from=${iso(nextMs)}&to=${iso(toMs)}`,
    );
    for (const { reading, correction } of list)
      if ((correction?.quality ?? reading.quality) === 'good')
        found.push([Date.parse(reading.at), correction?.tempC ?? reading.tempC]);
    if (list.length < PAGE) break;
    nextMs = Date.parse((list.at(-1) as SingleReading).reading.at) + 1;
  }
  return found;
}
