import { useMemo, useState } from 'react';
import type { ImportPreview } from '../../schema/import.ts';
import type { ProbeReadings } from './probe-readings.ts';
import { TemperatureChart } from './temperature-chart.tsx';

const HOUR_MS = 3_600_000;
const nothing: readonly never[] = [];
const ignore = () => undefined;

/** The whole file as it would be drawn, its gaps as gaps: a wrong date order or unit is seen at a glance. */
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

function chartsOf({ detected, chart }: ImportPreview): ProbeReadings[] {
  return (chart?.probes ?? [])
    .filter((one) => one.atMs.length > 0)
    .map(({ probe, atMs, minC, meanC, maxC }) => ({
      probe: { id: probe, name: probe, offsetC: 0, expectedIntervalS: detected.usualStepS ?? 600 },
      chart: {
        probeId: probe,
        bucketMs: chart?.bucketMs ?? 1,
        count: atMs.length,
        atMs,
        minC,
        meanC,
        maxC,
        humidity: [],
        maxMin: [],
      },
    }));
}
