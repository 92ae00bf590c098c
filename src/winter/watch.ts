import { figure, mass, percent, temperature, temperatureDifference } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import { forecastBreach } from './watch-forecast.ts';
import { CLEARED, LIMIT_RULES, type LimitState, limitsReading, limitsTime, openLimits } from './watch-limits.ts';
import { watchRule } from './watch-rules.ts';
import type { RuleId, WatchEntry, WatchNotice, WatchSetup } from './watch-types.ts';
import {
  type ChangeWindow,
  changeFromMs,
  changeRange,
  changeReading,
  openChange,
  openWarmHours,
  type WarmHours,
  warmAdd,
  warmClock,
} from './watch-windows.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** A box takes this long to settle after the animal was put in, s. Common practice, no source. */
const SETTLE_S = 6 * 3600;
const FROST = LIMIT_RULES.findIndex((rule) => rule.id === 'frost');
/** A second weighing settles a doubt only while the first is fresh. */
const SECOND_WEIGHING_MS = 2 * DAY_MS;

type Open = { -readonly [K in keyof WatchNotice]: WatchNotice[K] };

/** The watch over one stay. Changed in place by `watchEntry` and `watchClock`; read it through `notices`. */
export interface Watch {
  readonly setup: WatchSetup;
  /** All notices so far, in the order in which they were raised. */
  readonly notices: WatchNotice[];
  /** The watch has seen everything up to this instant, ms; an earlier entry needs a replay. */
  nowMs: number;
  ended: boolean;
  readonly limits: LimitState;
  readonly change: ChangeWindow;
  readonly warm: WarmHours;
  readonly open: Map<RuleId, Open>;
  readonly tell: (index: number, change: 1 | 2, atMs: number) => void;
  readonly silenceMs: number;
  readonly warmLimitC: number;
  readonly fastLimitK: number;
  readonly lidMs: number;
  readonly weighInMs: number;
  readonly settledMs: number;
  lastReadingMs: number;
  lastTempC: number;
  lastLidMs: number;
  lastWeighInMs: number;
  lastSignMs: number;
  /** Since when forecasts have been clean, by rule, ms. */
  readonly cleanSinceMs: Map<RuleId, number>;
}

const limitIn = (setup: WatchSetup, id: RuleId): number => setup.settings?.[id]?.limit ?? watchRule(id).limit;
const limitOf = (watch: Watch, id: RuleId): number => limitIn(watch.setup, id);

/** Starts the watch over a stay. The first *lid* and *weigh-in* count from the putting down. */
export function openWatch(setup: WatchSetup): Watch {
  const settings = setup.settings ?? {};
  const silence = watchRule('silence');
  const limits = openLimits(setup.settings, setup.accuracyC ?? 0);
  const watch: Watch = {
    setup,
    notices: [],
    nowMs: setup.fromMs,
    ended: false,
    limits,
    change: openChange((settings['fast-change']?.durationS ?? watchRule('fast-change').durationS) * 1000),
    warm: openWarmHours(Math.round((settings['warm-week']?.durationS ?? watchRule('warm-week').durationS) / 3600)),
    open: new Map(),
    tell: (index, change, atMs) => limitChanged(watch, index, change, atMs),
    silenceMs:
      setup.expectedIntervalS === undefined
        ? Number.POSITIVE_INFINITY
        : 1000 *
          Math.max(
            (settings.silence?.limit ?? silence.limit) * setup.expectedIntervalS,
            settings.silence?.durationS ?? silence.durationS,
          ),
    warmLimitC: limitIn(setup, 'over-10'),
    fastLimitK: limitIn(setup, 'fast-change'),
    lidMs: limitIn(setup, 'lid-closed') * DAY_MS,
    weighInMs: limitIn(setup, 'weigh-in-overdue') * DAY_MS,
    settledMs: setup.fromMs + (setup.settleS ?? SETTLE_S) * 1000,
    lastReadingMs: setup.fromMs,
    lastTempC: Number.NaN,
    lastLidMs: setup.fromMs,
    lastWeighInMs: setup.fromMs,
    lastSignMs: Number.NEGATIVE_INFINITY,
    cleanSinceMs: new Map(),
  };
  return watch;
}

function raise(watch: Watch, id: RuleId, fromMs: number, raisedMs: number, said: Message, more?: Partial<Open>): void {
  if (watch.open.has(id)) return;
  const rule = watchRule(id);
  const notice: Open = {
    key: `${id}:${fromMs}`,
    stayId: watch.setup.stayId,
    ruleId: id,
    level: rule.level,
    fromMs,
    raisedMs,
    message: said,
    page: rule.page,
    ...more,
  };
  watch.notices.push(notice);
  watch.open.set(id, notice);
}

function clear(watch: Watch, id: RuleId, atMs: number): void {
  const notice = watch.open.get(id);
  if (!notice) return;
  notice.clearedMs = atMs;
  watch.open.delete(id);
}

const degrees = (watch: Watch, tempC: number) => temperature(tempC, watch.setup.temperatureUnit ?? 'C');
const grams = (watch: Watch, massG: number) => mass(massG, watch.setup.massUnit ?? 'g');

/** A length of time as a keeper reads it: minutes, hours, days. */
function span(ms: number): string {
  const minutes = Math.round(ms / 60_000);
  if (minutes < 120) return `${figure(minutes)} min`;
  return minutes < 72 * 60 ? `${figure(minutes / 60)} h` : `${figure(minutes / 1440)} days`;
}

function limitChanged(watch: Watch, index: number, change: 1 | 2, atMs: number): void {
  const rule = LIMIT_RULES[index]!;
  if (change === CLEARED) {
    const notice = watch.open.get(rule.id);
    if (notice) notice.worstC = watch.limits.worstC[index]!;
    clear(watch, rule.id, atMs);
    return;
  }
  const worstC = watch.limits.worstC[index]!;
  const values = {
    limit: degrees(watch, limitOf(watch, rule.id)),
    duration: span(watch.limits.durationMs[index]!),
    worst: degrees(watch, worstC),
    now: degrees(watch, watch.lastTempC),
  };
  raise(watch, rule.id, watch.limits.fromMs[index]!, atMs, message(rule.say, values), { worstC });
}

/** Lets the clock run to `toMs`: durations, silence and what is overdue are noticed without a reading. O(1). */
export function watchClock(watch: Watch, toMs: number): void {
  if (watch.ended || toMs <= watch.nowMs) return;
  limitsTime(watch.limits, watch.nowMs, toMs, watch.tell);
  const silentMs = watch.lastReadingMs + watch.silenceMs;
  if (toMs >= silentMs && !watch.open.has('silence') && !watch.open.has('silence-in-cold')) {
    const cold = watch.lastTempC - watch.limits.accuracyC < limitOf(watch, 'under-3');
    const id = cold ? 'silence-in-cold' : 'silence';
    const last = Number.isNaN(watch.lastTempC) ? '–' : degrees(watch, watch.lastTempC);
    raise(
      watch,
      id,
      watch.lastReadingMs,
      silentMs,
      message(watchRule(id).say, { duration: span(watch.silenceMs), last }),
    );
  }
  if (toMs >= watch.lastLidMs + watch.lidMs) overdue(watch, 'lid-closed', watch.lastLidMs, watch.lidMs);
  if (toMs >= watch.lastWeighInMs + watch.weighInMs)
    overdue(watch, 'weigh-in-overdue', watch.lastWeighInMs, watch.weighInMs);
  watch.nowMs = toMs;
}

function overdue(watch: Watch, id: RuleId, lastMs: number, limitMs: number): void {
  if (watch.open.has(id)) return;
  raise(watch, id, lastMs, lastMs + limitMs, message(watchRule(id).say, { days: figure(limitMs / DAY_MS) }));
}

/**
 * Warm hours up to a new reading. They count only while readings come (a gap is not filled with warmth that nobody measured)
 * and are judged at readings only, so that ticks of the clock change nothing.
 */
function warmTime(watch: Watch, atMs: number): void {
  const { warm } = watch;
  const held = Number.isFinite(watch.silenceMs) ? watch.silenceMs : DAY_MS;
  const knownMs = Math.min(atMs, watch.lastReadingMs + held);
  const wasWarm = watch.lastTempC + watch.limits.accuracyC > watch.warmLimitC && settled(watch, watch.lastReadingMs);
  if (wasWarm) warmAdd(warm, watch.lastReadingMs, knownMs);
  if (warm.totalMs === 0 && (watch.open.size === 0 || !watch.open.has('warm-week'))) return;
  warmClock(warm, atMs);
  const rule = watchRule('warm-week');
  const hours = limitOf(watch, 'warm-week');
  if (warm.totalMs >= hours * HOUR_MS) {
    const values = { hours: figure(hours), limit: degrees(watch, watch.warmLimitC) };
    raise(watch, 'warm-week', atMs, atMs, message(rule.say, values));
  } else if (warm.totalMs <= (hours + rule.clearLimit - rule.limit) * HOUR_MS) clear(watch, 'warm-week', atMs);
}

const settled = (watch: Watch, atMs: number): boolean => atMs >= watch.settledMs;

/** Takes one temperature reading. O(1), allocates nothing while all is well. Returns false when it is older than the watch. */
export function watchReading(watch: Watch, atMs: number, tempC: number): boolean {
  if (watch.ended || !Number.isFinite(tempC)) return true;
  if (atMs < watch.nowMs) return false;
  watchClock(watch, atMs);
  warmTime(watch, atMs);
  watch.lastReadingMs = atMs;
  watch.lastTempC = tempC;
  if (watch.open.size > 0) {
    clear(watch, 'silence', atMs);
    clear(watch, 'silence-in-cold', atMs);
  }
  const isSettled = settled(watch, atMs);
  limitsReading(watch.limits, atMs, tempC, isSettled, watch.tell);
  if (!isSettled) return true;
  const changeK = changeReading(watch.change, atMs, tempC);
  const size = Math.abs(changeK);
  if (size > watch.fastLimitK) {
    const values = {
      change: temperatureDifference(size, watch.setup.temperatureUnit ?? 'C'),
      now: degrees(watch, tempC),
      hours: figure(watch.change.windowMs / HOUR_MS),
    };
    const key = changeK > 0 ? 'winter.watch.fastRise' : 'winter.watch.fastFall';
    raise(watch, 'fast-change', changeFromMs(watch.change, changeK), atMs, message(key, values));
  } else if (watch.open.has('fast-change') && changeRange(watch.change) <= watchRule('fast-change').clearLimit)
    clear(watch, 'fast-change', atMs);
  return true;
}

/** Takes anything else that happens to a stay. Returns false when it is older than the watch: then replay. */
export function watchEntry(watch: Watch, entry: WatchEntry): boolean {
  if (entry.kind === 'reading') return watchReading(watch, entry.atMs, entry.tempC);
  if (watch.ended) return true;
  if (entry.atMs < watch.nowMs) return false;
  watchClock(watch, entry.atMs);
  const { atMs } = entry;
  switch (entry.kind) {
    case 'span':
      takeSpan(watch, entry);
      break;
    case 'weigh-in':
      takeWeighIn(watch, entry);
      break;
    case 'battery': {
      const rule = watchRule('battery');
      const { percent, low } = entry;
      if (percent !== undefined && percent < limitOf(watch, 'battery'))
        raise(watch, 'battery', atMs, atMs, message(rule.say, { percent: figure(percent) }));
      else if (low) raise(watch, 'battery', atMs, atMs, message('winter.watch.batteryFlag'));
      else if (percent === undefined || percent >= rule.clearLimit) clear(watch, 'battery', atMs);
      break;
    }
    case 'diary':
      takeDiary(watch, entry.diary, atMs);
      break;
    case 'forecast':
      takeForecast(watch, entry);
      break;
    case 'mass-forecast': {
      const wakeMs = watch.setup.plannedWakeMs;
      if (entry.passesMs !== undefined && wakeMs !== undefined && entry.passesMs < wakeMs) {
        const days = Math.ceil((wakeMs - entry.passesMs) / DAY_MS);
        raise(watch, 'mass-forecast', atMs, atMs, message('winter.watch.massForecast', { count: days }));
      } else clear(watch, 'mass-forecast', atMs);
      break;
    }
    case 'woken':
      for (const id of [...watch.open.keys()]) clear(watch, id, atMs);
      watch.ended = true;
  }
  return true;
}

function takeSpan(watch: Watch, entry: Extract<WatchEntry, { kind: 'span' }>): void {
  const accuracy = watch.limits.accuracyC;
  const warmWatched = settled(watch, entry.fromMs);
  for (const [index, rule] of LIMIT_RULES.entries()) {
    const cold = rule.family === 'cold';
    const worstC = cold ? entry.minC : entry.maxC;
    const limit = limitOf(watch, rule.id);
    const outside = cold
      ? worstC - accuracy < limit || (rule.compare === 'at-or-under' && worstC - accuracy <= limit)
      : warmWatched && worstC + accuracy > limit;
    // How long it lasted is unknown; it can have lasted long enough only if the span itself did.
    if (!outside || entry.atMs - entry.fromMs < watch.limits.durationMs[index]!) continue;
    if (watch.open.has(rule.id)) continue;
    const key = cold ? 'winter.watch.spanCold' : 'winter.watch.spanWarm';
    const values = { worst: degrees(watch, worstC), limit: degrees(watch, limit) };
    const level = rule.id === 'frost' ? 'act-now' : rule.level === 'act-now' ? 'look-today' : 'for-the-record';
    raise(watch, rule.id, entry.fromMs, entry.atMs, message(key, values), { worstC, level });
    // It is over, as far as a max-min thermometer can tell; after frost, only when somebody has looked at the animal.
    if (rule.id !== 'frost') clear(watch, rule.id, entry.atMs);
  }
}

function takeDiary(watch: Watch, kind: Extract<WatchEntry, { kind: 'diary' }>['diary'], atMs: number): void {
  if (kind === 'urine') raise(watch, 'urine', atMs, atMs, message('winter.watch.urine'));
  else if (kind === 'no-touch-response') raise(watch, 'no-response', atMs, atMs, message('winter.watch.noResponse'));
  else if (kind === 'awake-signs') {
    watch.lastSignMs = atMs;
    raise(watch, 'awake-signs', atMs, atMs, message('winter.watch.awakeSigns'));
  } else {
    // A look at the animal: the lid was open for it, and quiet a day after the last sign is quiet again.
    watch.lastLidMs = atMs;
    clear(watch, 'lid-closed', atMs);
    if (watch.limits.raised[FROST] === 0) clear(watch, 'frost', atMs);
    if (kind === 'touch-response') clear(watch, 'no-response', atMs);
    if (atMs - watch.lastSignMs >= watchRule('awake-signs').clearS * 1000) clear(watch, 'awake-signs', atMs);
  }
}

function takeForecast(watch: Watch, entry: Extract<WatchEntry, { kind: 'forecast' }>): void {
  const horizonH = (id: RuleId) => entry.atMs + limitOf(watch, id) * HOUR_MS;
  const until = Math.max(horizonH('forecast-cold'), horizonH('forecast-warm'));
  const found = forecastBreach(watch.limits, entry.atMs, entry.timesMs, entry.tempsC, until);
  for (const id of ['forecast-cold', 'forecast-warm'] as const) {
    const breach = id === 'forecast-cold' ? found.cold : found.warm;
    if (breach && breach.atMs <= horizonH(id)) {
      watch.cleanSinceMs.delete(id);
      const values = {
        worst: degrees(watch, breach.worstC),
        limit: degrees(watch, limitOf(watch, breach.ruleId)),
        count: Math.max(1, Math.round((breach.fromMs - entry.atMs) / HOUR_MS)),
      };
      raise(watch, id, breach.fromMs, entry.atMs, message(watchRule(id).say, values), { worstC: breach.worstC });
    } else if (watch.open.has(id)) {
      // One clean forecast may be a wobble of the weather service: clear when they have stayed clean.
      const since = watch.cleanSinceMs.get(id) ?? entry.atMs;
      watch.cleanSinceMs.set(id, since);
      if (entry.atMs - since >= watchRule(id).clearS * 1000) clear(watch, id, entry.atMs);
    }
  }
}

function takeWeighIn(watch: Watch, entry: Extract<WatchEntry, { kind: 'weigh-in' }>): void {
  const { atMs, massG } = entry;
  watch.lastWeighInMs = atMs;
  clear(watch, 'weigh-in-overdue', atMs);
  const startG = watch.setup.startMassG;
  const values = { mass: grams(watch, massG), start: startG === undefined ? '–' : grams(watch, startG) };
  if (entry.expectedLowG !== undefined && massG < entry.expectedLowG) {
    raise(
      watch,
      'mass-band',
      atMs,
      atMs,
      message('winter.watch.massBand', { ...values, low: grams(watch, entry.expectedLowG) }),
    );
  } else if (entry.expectedLowG !== undefined) clear(watch, 'mass-band', atMs);
  if (startG === undefined) return;
  // Rounded to 1e-9 so that 720 g of 800 g is exactly ten per cent.
  const loss = Math.round((1 - massG / startG) * 1e9) / 1e9;
  const told = { ...values, loss: percent(loss, 1) };
  const ten = watch.open.get('mass-10');
  if (loss >= limitOf(watch, 'mass-10') / 100) {
    if (!ten) raise(watch, 'mass-10', atMs, atMs, message('winter.watch.mass10', told), { secondWeighing: 'asked' });
    else if (ten.secondWeighing === 'asked') {
      ten.secondWeighing = 'confirmed';
      ten.message = message('winter.watch.mass10Confirmed', told);
    }
  } else if (ten?.secondWeighing === 'asked' && atMs - ten.fromMs <= SECOND_WEIGHING_MS) {
    clear(watch, 'mass-10', atMs);
    raise(watch, 'weighing-doubted', atMs, atMs, message('winter.watch.weighingDoubted', told));
    clear(watch, 'weighing-doubted', atMs);
  }
  if (loss >= limitOf(watch, 'mass-8') / 100) raise(watch, 'mass-8', atMs, atMs, message('winter.watch.mass8', told));
  else if (loss < watchRule('mass-8').clearLimit / 100) clear(watch, 'mass-8', atMs);
}

const ORDER: readonly WatchEntry['kind'][] = [
  'reading',
  'span',
  'battery',
  'weigh-in',
  'diary',
  'mass-forecast',
  'forecast',
  'woken',
];

/** Order of entries: by time; at one instant by kind, then by value, so that no order of arrival matters. */
function compareEntries(a: WatchEntry, b: WatchEntry): number {
  if (a.atMs !== b.atMs) return a.atMs - b.atMs;
  if (a.kind !== b.kind) return ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind);
  if (a.kind === 'reading' && b.kind === 'reading') return a.tempC - b.tempC;
  if (a.kind === 'weigh-in' && b.kind === 'weigh-in') return a.massG - b.massG;
  if (a.kind === 'span' && b.kind === 'span') return a.fromMs - b.fromMs || a.minC - b.minC || a.maxC - b.maxC;
  if (a.kind === 'diary' && b.kind === 'diary') return a.diary < b.diary ? -1 : a.diary > b.diary ? 1 : 0;
  if (a.kind === 'battery' && b.kind === 'battery')
    return (a.percent ?? -1) - (b.percent ?? -1) || Number(a.low ?? false) - Number(b.low ?? false);
  return 0;
}

/**
 * The whole history of a stay through the rules, in the order in which it happened, whatever the order in which it came in.
 * Entries before the putting down are left out; the clock then runs to `nowMs`.
 */
export function replayWatch(setup: WatchSetup, entries: readonly WatchEntry[], nowMs: number): Watch {
  const watch = openWatch(setup);
  const ordered = entries.filter((entry) => entry.atMs >= setup.fromMs && entry.atMs <= nowMs).sort(compareEntries);
  for (const entry of ordered) watchEntry(watch, entry);
  watchClock(watch, nowMs);
  return watch;
}
