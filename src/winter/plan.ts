import { addDays, type Day, daysBetween } from '../measure/day.ts';
import { dayInWords } from '../measure/day-words.ts';
import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import { SMALL_UNDER_MM } from '../physiology/constants.ts';
import { mayEverHibernate } from '../tortoise/species.ts';
import type { Assessment } from '../tortoise/types.ts';
import { type MessageKey, message } from '../wording/say.ts';
import { awakePlan } from './awake-plan.ts';
import { clearOnFastDay, gutExpectation, type MassLimit } from './plan-forecasts.ts';
import {
  FIRST_COOLING_NIGHTS,
  LAST_BATH,
  LATE_WAKING_DAYS,
  MIDDLE_AFTER_SHORTEST_DAYS,
  PREPARATION,
  type PreparationRow,
  SEASON_SOURCE,
  WARM_FAST_SOURCE,
} from './plan-table.ts';
import type {
  LampStep,
  LastBathView,
  PlanLength,
  PlanNote,
  PlanOption,
  PlanOutcome,
  PlanRequest,
  WinterPlan,
} from './plan-types.ts';
import { type Anchors, lampSteps, stagesOf, tasksOf } from './schedule.ts';
import { hasSeason, hemisphereOf, shortestDayFrom, shortestDayNear, sleepDayFor } from './season.ts';

export interface Begun {
  readonly windDownDay?: Day;
  readonly fastDay?: Day;
  readonly lamp: readonly LampStep[];
  /** The nights are a fact, or are being shortened: no gate and no ceiling speaks against waking. */
  readonly nightsFixed?: boolean;
}

export interface PlanContext {
  /** The day in the keeper's zone on which the plan is made. */
  readonly today: Day;
  /** Longest sleep that the forecast of mass loss allows; left out: the plan says that no forecast was made. */
  readonly massLimit?: MassLimit;
  /** What has already come and cannot be moved, when a running plan is moved. */
  readonly begun?: Begun;
  /** The gut's own course, when it is known better than from the plan: the day it is now expected clear. */
  readonly gutClearDay?: Day;
}

const note = (
  level: PlanNote['level'],
  code: string,
  key: MessageKey,
  values?: Record<string, string | number>,
  source: Source = COMMON_PRACTICE,
): PlanNote => ({ level, code, say: message(key, values), source });

/**
 * The dated plan of one animal's winter, worked back from the sleeping day, or the reasons why there is none with what could be
 * done instead. A species that is tropical, unknown or not in the table, and a verdict of *stay awake*, never get a plan to
 * sleep, whatever the request says. Throws RangeError for a day that does not exist.
 */
export function makePlan(request: PlanRequest, assessment: Assessment, context: PlanContext): PlanOutcome {
  const wish = request.wish ?? 'sleep';
  if (wish === 'awake') return { outcome: 'planned', plan: awakePlan(request, context.today) };
  const against = context.begun?.nightsFixed ? [] : unfit(request, assessment);
  if (against.length > 0) {
    return {
      outcome: 'refused',
      reasons: against,
      options: [option('awake', 'winter.option.awake', { ...request, wish: 'awake' })],
      instead: awakePlan(request, context.today),
    };
  }
  return wish === 'first-cooling'
    ? planSleep({ ...request, sleepDays: FIRST_COOLING_NIGHTS }, assessment, context)
    : planSleep(request, assessment, context);
}

/** Why this animal must not sleep; empty when nothing speaks against it. */
function unfit(request: PlanRequest, assessment: Assessment): PlanNote[] {
  const reasons: PlanNote[] = [];
  if (!mayEverHibernate(request.species))
    reasons.push(note('warning', 'species', 'winter.refuse.species', { species: request.species }));
  if (assessment.verdict === 'stay-awake') {
    for (const gate of assessment.gates) {
      if (gate.state === 'fails')
        reasons.push({ level: 'warning', code: gate.name, say: gate.reason, source: gate.source });
    }
    if (reasons.length === 0) reasons.push(note('warning', 'verdict', 'winter.refuse.verdict'));
  } else if (assessment.length.ceilingDays < 1) {
    reasons.push(note('warning', 'length', 'winter.refuse.length', {}, assessment.length.source));
  }
  return reasons;
}

function option(code: PlanOption['code'], key: MessageKey, request: PlanRequest, values = {}): PlanOption {
  return { code, say: message(key, values), request };
}

const earlier = (a: Day, b: Day): Day => (daysBetween(a, b) >= 0 ? a : b);

interface Dates {
  readonly shortestDay: Day;
  readonly sleepDay: Day;
  readonly nights: number;
  readonly length: PlanLength;
  readonly anchors: Anchors;
  readonly notes: PlanNote[];
}

function planSleep(request: PlanRequest, assessment: Assessment, context: PlanContext): PlanOutcome {
  const small = request.sclMm < SMALL_UNDER_MM;
  const row = small ? PREPARATION.small : PREPARATION.grown;
  if (request.sleepDay === undefined && !hasSeason(request.latitudeDeg) && !request.climateNormals) {
    return {
      outcome: 'refused',
      reasons: [note('warning', 'no-season', 'winter.refuse.noSeason')],
      options: [option('awake', 'winter.option.awake', { ...request, wish: 'awake' })],
    };
  }
  const dates =
    request.sleepDay === undefined
      ? proposeDates(request, assessment, context, row)
      : givenDates(request, request.sleepDay, assessment, context, row);
  if ('outcome' in dates) return dates;
  return { outcome: 'planned', plan: assemble(request, assessment, context, dates, small) };
}

/** Nights that are wished for and allowed, and what set them. */
function lengthOf(request: PlanRequest, assessment: Assessment, context: PlanContext, sleepDay: Day): PlanLength {
  const { suggestedDays, ceilingDays, source } = assessment.length;
  const massLimitDays = context.massLimit?.(sleepDay, ceilingDays);
  const first = request.wish === 'first-cooling';
  const fixed = context.begun?.nightsFixed === true;
  let days = request.sleepDays ?? suggestedDays;
  let limitedBy: PlanLength['limitedBy'] = first
    ? 'first-cooling'
    : request.sleepDays === undefined
      ? 'suggested'
      : 'wish';
  if (!fixed && days > ceilingDays) {
    days = ceilingDays;
    limitedBy = 'ceiling';
  }
  if (!fixed && massLimitDays !== undefined && massLimitDays < days) {
    days = massLimitDays;
    limitedBy = 'mass-loss';
  }
  const values = { count: days, ceiling: ceilingDays };
  return {
    days,
    suggestedDays,
    ceilingDays,
    ...(massLimitDays === undefined ? {} : { massLimitDays }),
    limitedBy,
    say: message(`winter.length.${limitedBy}`, values),
    source,
  };
}

/** The first winter that can still be prepared for; later in the same season, and shorter, before the next. */
function proposeDates(
  request: PlanRequest,
  assessment: Assessment,
  context: PlanContext,
  row: PreparationRow,
): Dates | PlanOutcome {
  const { today } = context;
  const ready = addDays(
    today,
    (request.shortPreparation ? 0 : row.windDownDays) +
      (request.shortPreparation ? row.shortestFastDays : row.fastDays),
  );
  let shortestDay = shortestDayFrom(addDays(today, -90), request.latitudeDeg);
  for (let tries = 0; tries < 3; tries++) {
    const first = lengthOf(request, assessment, context, addDays(shortestDay, MIDDLE_AFTER_SHORTEST_DAYS));
    const wanted = sleepDayFor(shortestDay, first.days, request.climateNormals);
    if (wanted >= ready) return givenDates(request, wanted, assessment, context, row, shortestDay);
    const latestWake = addDays(wanted, first.days + LATE_WAKING_DAYS);
    const left = daysBetween(ready, latestWake);
    if (left >= Math.max(1, Math.min(assessment.length.shortestDays, first.days))) {
      const nights = Math.min(first.days, left);
      const late = givenDates({ ...request, sleepDays: nights }, ready, assessment, context, row, shortestDay);
      if ('outcome' in late) return late;
      late.notes.unshift(
        note('warning', 'late-start', 'winter.note.lateStart', { usual: dayInWords(wanted), now: dayInWords(ready) }),
      );
      const shorter = nights < first.days && late.length.limitedBy === 'wish';
      return shorter
        ? {
            ...late,
            length: {
              ...late.length,
              limitedBy: 'season',
              say: message('winter.length.season', { count: nights, ceiling: late.length.ceilingDays }),
            },
          }
        : late;
    }
    shortestDay = shortestDayFrom(addDays(shortestDay, 30), request.latitudeDeg);
  }
  throw new RangeError('no winter was found within three years');
}

/** Dates for a sleeping day that is given: the preparation is worked back from it, or what has to give is said. */
function givenDates(
  request: PlanRequest,
  sleepDay: Day,
  assessment: Assessment,
  context: PlanContext,
  row: PreparationRow,
  winterOf?: Day,
): Dates | PlanOutcome {
  const { today, begun } = context;
  const length = lengthOf(request, assessment, context, sleepDay);
  const nights = length.days;
  const wakeDay = addDays(sleepDay, nights);
  const shortestDay = winterOf ?? shortestDayNear(addDays(sleepDay, Math.floor(nights / 2)), request.latitudeDeg);
  const notes: PlanNote[] = [];
  if (nights < 1)
    return refuse('mass', 'winter.refuse.mass', {}, [
      option('awake', 'winter.option.awake', { ...request, wish: 'awake' }),
    ]);
  if (sleepDay < today) {
    if (wakeDay <= today && !begun?.nightsFixed)
      return refuse('past', 'winter.refuse.past', { day: dayInWords(sleepDay) }, [
        nextWinter(request, shortestDay, nights),
      ]);
    if (!begun)
      notes.push(note('warning', 'already-asleep', 'winter.note.alreadyAsleep', { day: dayInWords(sleepDay) }));
  }
  let windDownDay = begun?.windDownDay ?? addDays(sleepDay, -row.fastDays - row.windDownDays);
  let fastDay = begun?.fastDay ?? addDays(sleepDay, -row.fastDays);
  const asleepNow = sleepDay < today;
  if (!begun && !asleepNow && windDownDay < today) {
    const available = daysBetween(today, sleepDay);
    const compressible = available >= row.shortestFastDays;
    if (!request.shortPreparation || !compressible) {
      const later = addDays(today, row.fastDays + row.windDownDays);
      const values = {
        available: Math.max(0, available),
        needed: row.fastDays + row.windDownDays,
        least: row.shortestFastDays,
      };
      return refuse('too-soon', 'winter.refuse.tooSoon', values, [
        option('later', 'winter.option.later', { ...request, sleepDay: later }, { day: dayInWords(later) }),
        ...(compressible
          ? [
              option(
                'shorter-preparation',
                'winter.option.shorter',
                { ...request, shortPreparation: true },
                { count: available },
              ),
            ]
          : []),
        nextWinter(request, shortestDay, nights),
        option('awake', 'winter.option.awake', { ...request, wish: 'awake' }),
      ]);
    }
    const fastDays = Math.min(row.fastDays, available);
    fastDay = addDays(sleepDay, -fastDays);
    windDownDay = earlier(today, fastDay);
    notes.push(
      note(
        'warning',
        'short-preparation',
        'winter.note.shortPreparation',
        { count: fastDays, usual: row.fastDays },
        row.source,
      ),
    );
  }
  if (fastDay > sleepDay) fastDay = sleepDay;
  if (windDownDay > fastDay) windDownDay = fastDay;
  const fastDays = daysBetween(fastDay, sleepDay);
  if (begun && !asleepNow && fastDays < row.shortestFastDays) {
    const earliest = addDays(fastDay, row.shortestFastDays);
    return refuse(
      'fast-too-short',
      'winter.refuse.fastTooShort',
      { least: row.shortestFastDays, day: dayInWords(earliest) },
      [option('later', 'winter.option.later', { ...request, sleepDay: earliest }, { day: dayInWords(earliest) })],
    );
  }
  if (fastDays > row.longestFastDays)
    notes.push(
      note('warning', 'fast-too-long', 'winter.note.fastTooLong', { count: fastDays, most: row.longestFastDays }),
    );
  if (
    Math.abs(daysBetween(shortestDay, addDays(sleepDay, Math.floor(nights / 2)))) > 75 &&
    request.method !== 'refrigerator'
  )
    notes.push(note('warning', 'out-of-season', 'winter.note.outOfSeason', {}, SEASON_SOURCE));
  return { shortestDay, sleepDay, nights, length, anchors: { windDownDay, fastDay, sleepDay, wakeDay }, notes };
}

function refuse(
  code: string,
  key: MessageKey,
  values: Record<string, string | number>,
  options: PlanOption[],
): PlanOutcome {
  return { outcome: 'refused', reasons: [note('warning', code, key, values)], options };
}

function nextWinter(request: PlanRequest, shortestDay: Day, nights: number): PlanOption {
  const next = shortestDayFrom(addDays(shortestDay, 30), request.latitudeDeg);
  const sleepDay = sleepDayFor(next, Math.max(1, nights), request.climateNormals);
  return option('next-winter', 'winter.option.nextWinter', { ...request, sleepDay }, { day: dayInWords(sleepDay) });
}

function assemble(
  request: PlanRequest,
  assessment: Assessment,
  context: PlanContext,
  dates: Dates,
  small: boolean,
): WinterPlan {
  const { anchors, length, sleepDay } = dates;
  const lastBath: LastBathView = request.lastBath ?? 'day-before';
  const lamp = lampSteps(
    anchors,
    request,
    small,
    context.begun && {
      today: context.today,
      taken: context.begun.lamp,
      ...(context.gutClearDay === undefined ? {} : { warmUntil: context.gutClearDay }),
    },
  );
  const gut =
    context.gutClearDay === undefined
      ? gutExpectation(request, anchors.fastDay, lamp)
      : { expectedDay: context.gutClearDay };
  const firstCooling = request.wish === 'first-cooling';
  const stages = stagesOf(anchors).map((stage) =>
    firstCooling && stage.name === 'asleep'
      ? { ...stage, name: 'cooling' as const, purpose: message('winter.stage.cooling') }
      : stage,
  );
  const tasks = tasksOf(anchors, request, lamp, lastBath, firstCooling).flatMap((task) => {
    const lastDay = task.untilDay ?? task.day;
    if (lastDay < context.today) return [];
    // What could have begun earlier begins today.
    return [task.day < context.today ? { ...task, day: context.today } : task];
  });
  return {
    kind: firstCooling ? 'first-cooling' : 'sleep',
    request: { ...request, sleepDay },
    winter: dates.shortestDay.slice(0, 4),
    hemisphere: hemisphereOf(request.latitudeDeg),
    shortestDay: dates.shortestDay,
    madeOn: context.today,
    provisional: assessment.verdict === 'wait',
    fromDay: stages[0]!.fromDay,
    toDay: stages.at(-1)!.toDay,
    sleepDay,
    wakeDay: anchors.wakeDay,
    length,
    gut,
    stages,
    tasks,
    lamp,
    notes: [...dates.notes, ...planNotes(request, assessment, context, dates, gut, lastBath)],
  };
}

function planNotes(
  request: PlanRequest,
  assessment: Assessment,
  context: PlanContext,
  dates: Dates,
  gut: NonNullable<WinterPlan['gut']>,
  lastBath: LastBathView,
): PlanNote[] {
  const { anchors, length, sleepDay } = dates;
  const notes: PlanNote[] = [];
  if (assessment.verdict === 'wait') {
    notes.push(note('warning', 'provisional', 'winter.note.provisional'));
    for (const gate of assessment.gates) {
      if (gate.state === 'not-yet-known' || gate.state === 'borderline')
        notes.push({ level: 'warning', code: `gate-${gate.name}`, say: gate.reason, source: gate.source });
    }
  }
  if (length.limitedBy === 'ceiling' && request.sleepDays !== undefined && request.sleepDays > length.days)
    notes.push(note('warning', 'ceiling', 'winter.note.ceiling', { count: length.ceilingDays }, length.source));
  if (length.massLimitDays === undefined) notes.push(note('note', 'no-mass-forecast', 'winter.note.noMassForecast'));
  notes.push(
    note('choice', 'length-advice', `winter.choice.advice.${assessment.length.advice}`, {}, assessment.length.source),
  );
  notes.push(note('choice', 'last-bath', `winter.choice.lastBath.${lastBath}`, {}, LAST_BATH[lastBath].source));
  const other = lastBath === 'day-before' ? 'week-before' : 'day-before';
  notes.push(note('choice', 'last-bath-other', `winter.choice.lastBathOther.${other}`, {}, LAST_BATH[other].source));
  if (context.today <= sleepDay) notes.push(gutNote(anchors, gut));
  return notes;
}

/** What the gut is expected to do against the dates. Clear on the last day counts; on the sleeping day is too late. */
function gutNote(anchors: Anchors, gut: NonNullable<WinterPlan['gut']>): PlanNote {
  const { fastDay, sleepDay } = anchors;
  if (gut.expectedDay === undefined) return note('warning', 'gut-never', 'winter.note.gutNever', {}, WARM_FAST_SOURCE);
  const values: Record<string, string | number> = {
    day: dayInWords(gut.expectedDay),
    fastDay: clearOnFastDay(fastDay, gut.expectedDay),
    latest: gut.latestDay === undefined ? '–' : dayInWords(gut.latestDay),
  };
  if (gut.expectedDay >= sleepDay) return note('warning', 'gut-late', 'winter.note.gutLate', values, WARM_FAST_SOURCE);
  if (gut.latestDay === undefined || gut.latestDay >= sleepDay)
    return note('note', 'gut-perhaps-late', 'winter.note.gutPerhapsLate', values, WARM_FAST_SOURCE);
  return note('note', 'gut-in-time', 'winter.note.gutInTime', values, WARM_FAST_SOURCE);
}
