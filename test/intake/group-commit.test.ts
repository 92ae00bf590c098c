import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { GroupCommit } from '../../src/intake/mqtt/commit.ts';
import type { MqttReading } from '../../src/intake/mqtt/topics.ts';

const reading = (number: number): MqttReading => ({ probe: 'outdoors', atMs: number, tempC: 4 });

/** A commit over a store whose calls end when the test says so. */
function scene() {
  const calls: { readonly atMs: readonly number[]; readonly end: (error?: Error) => void }[] = [];
  const told: (string | undefined)[] = [];
  const acknowledged: number[] = [];
  const commit = new GroupCommit(
    (readings) =>
      new Promise<void>((done, failed) =>
        calls.push({ atMs: readings.map((one) => one.atMs), end: (error) => (error ? failed(error) : done()) }),
      ),
    (error) => told.push(error?.message),
    () => undefined,
  );
  const add = (number: number) => commit.add(reading(number), () => acknowledged.push(number));
  return { calls, told, acknowledged, commit, add };
}

describe('a common commit', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('takes what came within a few milliseconds at once, and what came meanwhile in the next; each is acknowledged only after its own commit', async () => {
    const { calls, acknowledged, add } = scene();
    add(1);
    add(2);
    expect(calls).toHaveLength(0);
    await vi.advanceTimersByTimeAsync(5);
    add(3);
    expect(calls.map((call) => call.atMs)).toEqual([[1, 2]]);
    expect(acknowledged).toEqual([]);
    calls[0]!.end();
    await vi.advanceTimersByTimeAsync(5);
    expect(acknowledged).toEqual([1, 2]);
    expect(calls.map((call) => call.atMs)).toEqual([[1, 2], [3]]);
    calls[1]!.end();
    await vi.advanceTimersByTimeAsync(5);
    expect(acknowledged).toEqual([1, 2, 3]);
  });

  it('tries the same readings again after a failure, with the new ones behind them, says why, and says when it is over', async () => {
    const { calls, told, acknowledged, add } = scene();
    add(1);
    await vi.advanceTimersByTimeAsync(5);
    calls[0]!.end(new Error('disk full'));
    await vi.advanceTimersByTimeAsync(900);
    add(2);
    expect(calls).toHaveLength(1);
    expect([acknowledged, told]).toEqual([[], ['disk full']]);
    await vi.advanceTimersByTimeAsync(200);
    expect(calls[1]!.atMs).toEqual([1, 2]);
    calls[1]!.end(new Error('disk full'));
    await vi.advanceTimersByTimeAsync(1900);
    expect(calls).toHaveLength(2);
    await vi.advanceTimersByTimeAsync(200);
    calls[2]!.end();
    await vi.advanceTimersByTimeAsync(5);
    expect([acknowledged, told]).toEqual([
      [1, 2],
      ['disk full', undefined],
    ]);
  });

  it('stores what is waiting before it stops, and gives up at once where that fails', async () => {
    const well = scene();
    well.add(1);
    const stopped = well.commit.stop();
    await vi.advanceTimersByTimeAsync(1);
    well.calls[0]!.end();
    await stopped;
    expect(well.acknowledged).toEqual([1]);

    const ill = scene();
    ill.add(1);
    await vi.advanceTimersByTimeAsync(5);
    ill.calls[0]!.end(new Error('disk full'));
    await vi.advanceTimersByTimeAsync(5);
    await ill.commit.stop();
    expect([ill.acknowledged, ill.calls.length]).toEqual([[], 1]);
  });

  it('no more than 2,000 readings go into one commit', async () => {
    const { calls, add } = scene();
    for (let number = 0; number < 2001; number += 1) add(number);
    await vi.advanceTimersByTimeAsync(5);
    calls[0]!.end();
    await vi.advanceTimersByTimeAsync(5);
    expect(calls.map((call) => call.atMs.length)).toEqual([2000, 1]);
    calls[1]!.end();
    await vi.advanceTimersByTimeAsync(5);
  });
});
