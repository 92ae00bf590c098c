import { useMemo, useState } from 'react';
import type { ImportPreview } from '../../schema/import.ts';
import type { ProbeReadings } from './probe-readings.ts';
import { TemperatureChart } from './temperature-chart.tsx';

const HOUR_MS = 3_600_000;
const nothing: readonly never[] = [];
const ignore = () => undefined;

/** The first readings of the file as they would be drawn: a wrong date order or unit is seen at a glance. */
export function ImportChart({ preview }: { readonly preview: ImportPreview }) {
  const readings = useMemo(() => chartsOf(preview), [preview]);
  const times = readings.flatMap((one) => [one.chart.atMs[0] ?? 0, one.chart.atMs.at(-1) ?? 0]);
  const [fromMs, toMs] = [Math.min(...times), Math.max(...times)];
  const margin = Math.max(HOUR_MS, (toMs - fromMs) * 0.03);
  const [view, setView] = useState({ fromMs: fromMs - margin, toMs: toMs + margin });
  if (readings.length === 0) return null;
  return (
    <TemperatureChart
      readings={readings}
      view={view}
      onView={setView}
      onCursor={ignore}
      notices={nothing}
      dryRuns={nothing}
    />
  );
}

function chartsOf({ detected, readings }: ImportPreview): ProbeReadings[] {
  return detected.probes.slice(0, 6).flatMap(({ name }): ProbeReadings[] => {
    const mine = readings.filter((one) => one.probe === name).sort((a, b) => (a.at < b.at ? -1 : 1));
    if (mine.length === 0) return [];
    const tempC = mine.map((one) => one.tempC);
    return [
      {
        probe: { id: name, name, offsetC: 0, expectedIntervalS: detected.usualStepS ?? 600 },
        chart: {
          probeId: name,
          bucketMs: 1,
          count: mine.length,
          atMs: mine.map((one) => Date.parse(one.at)),
          minC: tempC,
          meanC: tempC,
          maxC: tempC,
          humidity: [],
          maxMin: [],
        },
      },
    ];
  });
}
