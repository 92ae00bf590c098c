import { createHash } from 'node:crypto';
import type { Database } from '../records/database.ts';
import { keepForecast, keepWeather } from '../records/weather.ts';
import { readForecastJson, type WeatherAnswer } from '../weather/forecast-json.ts';
import { sampleMs } from '../weather/series.ts';
import { say } from '../wording/say.ts';

const HOUR_MS = 3_600_000;
const MOST_BYTES = 2_000_000;
const MOST_WAIT_MS = 10_000;
/** A service may ask for a longer pause than an hour; beyond this its clock is more likely wrong than its wish. */
const LONGEST_PAUSE_MS = 24 * HOUR_MS;
/** The first and last minutes of an hour are when everybody asks. */
const EDGE_S = 120;
const MOST_HOURS = 1000;
const SOURCE = 'service';
const STATE = 'weather-service';

export interface WeatherServiceOptions {
  readonly database: Database;
  readonly group: { readonly id: string; readonly latitudeDeg: number; readonly longitudeDeg: number };
  /** Address with `{latitude}` and `{longitude}` where the place goes, degrees with four decimals. */
  readonly url: string;
  /** Address that the service's people may write to; goes into the User-Agent. */
  readonly contact?: string;
  readonly nowMs: () => number;
  /** A new forecast has been stored. */
  readonly onForecast?: () => void;
  readonly onError: (error: unknown) => void;
  /** How often the clock is looked at, ms. */
  readonly tickMs?: number;
}

/** What is remembered between two questions, across restarts too: a restart asks no sooner. */
interface Remembered {
  /** Last successful answer, ms. */
  readonly atMs?: number;
  readonly error?: string;
  /** As the service wrote it. */
  readonly lastModified?: string;
  /** Not to be asked again before this, ms. */
  readonly nextMs: number;
  /** The address the rest belongs to. */
  readonly url: string;
}

export interface WeatherService {
  readonly state: { readonly atMs?: number; readonly error?: string };
  /** Asks when it is time. Never throws: what went wrong is in `state`. */
  look(): Promise<void>;
  stop(): Promise<void>;
}

/** A refusal to show to the keeper. `pauseMs`: the service asked for this pause. */
class NoForecast extends Error {
  readonly pauseMs: number;
  constructor(what: string, pauseMs = 0) {
    super(what);
    this.pauseMs = pauseMs;
  }
}

/** Seconds after the full hour at which a group asks: spread by its id, so that installations do not all ask at once. */
export function askingSecond(groupId: string): number {
  const number = createHash('sha256').update(groupId).digest().readUInt32BE(0);
  return EDGE_S + (number % (3600 - 2 * EDGE_S));
}

/** The first asking second of the group at or after an instant, ms. */
function nextAsking(groupId: string, fromMs: number): number {
  const offset = askingSecond(groupId) * 1000;
  return Math.ceil((fromMs - offset) / HOUR_MS) * HOUR_MS + offset;
}

/** Fetches the weather forecast of the group's place every hour, until stopped. A fault is kept to be shown, and never ends it. */
export function startWeatherService(options: WeatherServiceOptions): WeatherService {
  const { database, group, nowMs } = options;
  const url = options.url
    .replaceAll('{latitude}', group.latitudeDeg.toFixed(4))
    .replaceAll('{longitude}', group.longitudeDeg.toFixed(4));
  let known: Remembered | undefined;
  let stopped = false;
  let turn: Promise<void> = Promise.resolve();
  const stopping = new AbortController();

  const once = async (): Promise<void> => {
    const stored = await remembered(database, group.id);
    known = stored?.url === url ? stored : { nextMs: 0, url };
    const now = nowMs();
    // A clock set back must not silence the service for as long as it was ahead.
    if (now < known.nextMs && known.nextMs - now <= LONGEST_PAUSE_MS + HOUR_MS) return;
    const before = known;
    try {
      const answer = await ask(url, options.contact, before.lastModified, now, stopping.signal);
      if (answer.body !== undefined) await store(database, group.id, answer.body, now);
      const lastModified = answer.lastModified ?? (answer.body === undefined ? before.lastModified : undefined);
      known = {
        url,
        atMs: now,
        nextMs: nextAsking(group.id, Math.max(now + 1, answer.expiresMs)),
        ...(lastModified ? { lastModified } : {}),
      };
      await remember(database, group.id, known);
      if (answer.body !== undefined) options.onForecast?.();
    } catch (error) {
      if (stopped) return;
      const refusal = error instanceof NoForecast ? error : undefined;
      if (!refusal) options.onError(error);
      const { error: _, ...rest } = before;
      known = {
        ...rest,
        error: refusal?.message ?? say('intake.weather.not-stored'),
        nextMs: nextAsking(group.id, now + Math.max(1, refusal?.pauseMs ?? 0)),
      };
      await remember(database, group.id, known);
    }
  };
  const look = (): Promise<void> => {
    turn = turn.then(() => (stopped ? undefined : once())).catch(options.onError);
    return turn;
  };
  const timer = setInterval(look, options.tickMs ?? 30_000);
  void look();
  return {
    get state() {
      return {
        ...(known?.atMs === undefined ? {} : { atMs: known.atMs }),
        ...(known?.error === undefined ? {} : { error: known.error }),
      };
    },
    look,
    async stop() {
      stopped = true;
      clearInterval(timer);
      stopping.abort();
      await turn;
    },
  };
}

interface Answer {
  /** Absent when nothing has changed since the last time. */
  readonly body?: WeatherAnswer;
  readonly lastModified?: string;
  readonly expiresMs: number;
}

async function ask(
  url: string,
  contact: string | undefined,
  since: string | undefined,
  now: number,
  stopping: AbortSignal,
): Promise<Answer> {
  let response: Response;
  let text = '';
  try {
    response = await fetch(url, {
      redirect: 'manual',
      signal: AbortSignal.any([AbortSignal.timeout(MOST_WAIT_MS), stopping]),
      headers: {
        accept: 'application/json, application/geo+json',
        'user-agent': `Stillwinter/0.1${contact ? ` (${contact})` : ''}`,
        ...(since ? { 'if-modified-since': since } : {}),
      },
    });
    if (response.status === 200) text = await textOf(response);
    else await response.body?.cancel();
  } catch (error) {
    if (error instanceof NoForecast) throw error;
    const late = error instanceof Error && error.name === 'TimeoutError';
    throw new NoForecast(say(late ? 'intake.weather.late' : 'intake.weather.unreachable'));
  }
  const { status, headers } = response;
  const lastModified = headers.get('last-modified') ?? undefined;
  const expires = Date.parse(headers.get('expires') ?? '');
  const expiresMs = Number.isNaN(expires) ? 0 : Math.min(expires, now + LONGEST_PAUSE_MS);
  if (status === 304 && since) return { expiresMs, ...(lastModified ? { lastModified } : {}) };
  if (status !== 200) {
    const key =
      status === 429 ? 'intake.weather.too-often' : status < 400 ? 'intake.weather.elsewhere' : 'intake.weather.status';
    throw new NoForecast(say(key, status === 429 ? {} : { status }), pauseOf(headers.get('retry-after'), now));
  }
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new NoForecast(say('intake.weather.not-json'));
  }
  const read = readForecastJson(json);
  if (!read.ok) {
    const { where, what } = read.problems[0]!;
    throw new NoForecast(say('intake.weather.not-read', { where: say(where), what: say(what) }));
  }
  return { body: read.value, expiresMs, ...(lastModified ? { lastModified } : {}) };
}

/** The pause a Retry-After asks for, in seconds or as a date, ms; 0 without one. */
function pauseOf(header: string | null, now: number): number {
  if (header === null) return 0;
  const ms = /^\d+$/.test(header.trim()) ? Number(header) * 1000 : Date.parse(header) - now;
  return Number.isNaN(ms) ? 0 : Math.min(Math.max(ms, 0), LONGEST_PAUSE_MS);
}

async function textOf(response: Response): Promise<string> {
  const decoder = new TextDecoder();
  let text = '';
  let bytes = 0;
  for await (const part of response.body ?? []) {
    bytes += part.byteLength;
    if (bytes > MOST_BYTES) throw new NoForecast(say('intake.weather.too-large'));
    text += decoder.decode(part, { stream: true });
  }
  return text + decoder.decode();
}

/** Hours that are past become weather of the record, those to come the forecast. A missing hour stays missing. */
async function store(database: Database, groupId: string, answer: WeatherAnswer, now: number): Promise<void> {
  const { series } = answer;
  const hourMs = Math.floor(now / HOUR_MS) * HOUR_MS;
  const at = (index: number) => sampleMs(series, index);
  const present = (values: Float64Array | undefined, index: number): number | undefined => {
    const value = values?.[index];
    return value === undefined || Number.isNaN(value) ? undefined : value;
  };
  const indices = Array.from(series.airTempC, (_, index) => index);
  const ahead = indices.filter((index) => at(index) >= hourMs).slice(0, MOST_HOURS);
  if (!ahead.some((index) => at(index) > now && present(series.airTempC, index) !== undefined))
    throw new NoForecast(say('intake.weather.all-past'));
  const past = indices.filter((index) => at(index) <= now && present(series.airTempC, index) !== undefined);
  const measured = new Set(
    (
      await database.kysely
        .selectFrom('weatherHours')
        .select('atMs')
        .where('groupId', '=', groupId)
        .where('atMs', '>=', series.startMs)
        .where('source', '!=', SOURCE)
        .execute()
    ).map((row) => Number(row.atMs)),
  );
  const hours = past
    // A record that somebody took in is worth more than what a service makes of the same hour.
    .filter((index) => !measured.has(at(index)))
    .map((index) => {
      const cloudShare = present(series.cloudShare, index);
      const relativeHumidity = present(series.relativeHumidity, index);
      return {
        atMs: at(index),
        tempC: series.airTempC[index]!,
        ...(cloudShare === undefined ? {} : { cloudShare }),
        ...(relativeHumidity === undefined ? {} : { relativeHumidity }),
      };
    });
  if (hours.length > 0) await keepWeather(database, groupId, hours, SOURCE);
  const column = (values: Float64Array) => ahead.map((index) => present(values, index) ?? null);
  await keepForecast(database, groupId, {
    madeAtMs: Math.min(answer.updatedAtMs ?? now, now),
    startMs: at(ahead[0]!),
    stepS: series.stepS,
    airTempC: column(series.airTempC),
    ...(series.cloudShare ? { cloudShare: column(series.cloudShare) } : {}),
  });
}

async function remembered(database: Database, groupId: string): Promise<Remembered | undefined> {
  const row = await database.kysely
    .selectFrom('settings')
    .select('value')
    .where('groupId', '=', groupId)
    .where('name', '=', STATE)
    .executeTakeFirst();
  return row && (JSON.parse(row.value) as Remembered);
}

async function remember(database: Database, groupId: string, state: Remembered): Promise<void> {
  const value = JSON.stringify(state);
  await database.kysely
    .insertInto('settings')
    .values({ groupId, name: STATE, value })
    .onConflict((conflict) => conflict.columns(['groupId', 'name']).doUpdateSet({ value }))
    .execute();
}
