import { daysBetween } from '../measure/day.ts';
import { mass } from '../measure/figures.ts';
import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import { type Message, message } from '../wording/say.ts';
import { EXAMINATION_PARTS, judgePart } from './examination.ts';
import {
  EGGS_FROM_SHARE_OF_ADULT,
  GATE_SOURCES,
  LAST_BATH_WITHIN_DAYS,
  START_MASS_DIFFERENCE,
  TWELVE_MONTHS_DAYS,
} from './gate-table.ts';
import { checkSize } from './size-check.ts';
import { findSpecies } from './species.ts';
import type {
  AssessInput,
  Condition,
  Gate,
  GateName,
  GateState,
  HealthEventKind,
  HibernationLength,
  Verdict,
} from './types.ts';

const SEVERITY: readonly GateState[] = ['passes', 'not-yet-known', 'borderline', 'fails'];

/** The worse of two states; a borderline answer outweighs a missing one, a failure both. */
function worseState(a: GateState, b: GateState): GateState {
  return SEVERITY.indexOf(a) >= SEVERITY.indexOf(b) ? a : b;
}

/** The verdict is the worst gate: any failure keeps the animal awake, anything open makes it wait. */
export function verdictOf(gates: readonly Pick<Gate, 'state'>[]): Verdict {
  const worst = gates.reduce<GateState>((state, gate) => worseState(state, gate.state), 'passes');
  if (worst === 'fails') return 'stay-awake';
  return worst === 'passes' ? 'may-go-down' : 'wait';
}

/** What the gates are judged on: the question with its age worked out, and the two judgements made before. */
export interface GateQuestion {
  readonly input: AssessInput;
  readonly condition: Condition;
  readonly length: HibernationLength;
}

const gate = (name: GateName, state: GateState, reason: Message, source?: Source): Gate => ({
  name,
  state,
  reason,
  source: source ?? GATE_SOURCES[name] ?? COMMON_PRACTICE,
});

/** Every gate of the moment asked for, in the order in which a keeper works through them. */
export function judgeGates(question: GateQuestion): Gate[] {
  const { input, condition } = question;
  const { history } = input;
  const gates: Gate[] = [
    speciesGate(input),
    ageGate(question),
    measurementsGate(input),
    gate('condition', conditionState(question), condition.reason, condition.source),
    answered('appetite', history.appetiteNormal),
    answered('summer-weight', history.weightNormal),
    clearable('illness', input, 'illness', history.illness),
    clearable('treatment', input, 'treatment', history.treatment),
    clearable('new-arrival', input, 'new-arrival', arrivedLately(input)),
    ...EXAMINATION_PARTS.map((part) => {
      const judged = judgePart(part, input.examination, 'before');
      return gate(part, judged.state, judged.reason, judged.source);
    }),
    parasitesGate(input),
    eggsGate(input),
    hydrationGate(input),
  ];
  gates.push(vetGate(question, gates));
  if (input.moment === 'going-down') gates.push(gutGate(input), bathGate(input), startMassGate(input));
  return gates;
}

function speciesGate({ species, history }: AssessInput): Gate {
  const row = findSpecies(species);
  const values = { species: row?.name ?? species };
  switch (row?.hibernation) {
    case 'hibernates':
      return gate('species', 'passes', message('tortoise.gate.species.hibernates', values), row.source);
    case 'identify-first':
      return history.formConfirmed
        ? gate('species', 'passes', message('tortoise.gate.species.formConfirmed', values), row.source)
        : gate('species', 'borderline', message('tortoise.gate.species.identifyFirst', values), row.source);
    case 'never':
      return gate('species', 'fails', message('tortoise.gate.species.never', values), row.source);
    default:
      return gate('species', 'fails', message('tortoise.gate.species.unidentified'), row?.source);
  }
}

function ageGate({ length, input }: GateQuestion): Gate {
  const species = findSpecies(input.species);
  const sleeps = species?.hibernation === 'hibernates' || species?.hibernation === 'identify-first';
  // The length itself says no only where the advice followed lets no animal of this age sleep.
  if (sleeps && length.ceilingDays === 0)
    return gate(
      'age',
      'fails',
      message(`tortoise.gate.age.tooYoung.${length.advice}` as Message['key']),
      length.source,
    );
  return gate('age', 'passes', message(`tortoise.gate.age.${length.lengthClass}`), length.source);
}

function measurementsGate({ massG, sclMm }: AssessInput): Gate {
  const [problem] = checkSize(massG, sclMm);
  return problem
    ? gate('measurements', 'borderline', problem.what)
    : gate('measurements', 'passes', message('tortoise.gate.measurements.fit'));
}

/** A heavy animal passes once a vet has looked for the cause. */
function conditionState({ condition, input }: GateQuestion): GateState {
  return condition.band === 'heavy' && condition.state === 'borderline' && vetChecked(input)
    ? 'passes'
    : condition.state;
}

function answered(name: 'appetite' | 'summer-weight', answer: boolean | undefined): Gate {
  if (answer === undefined) return gate(name, 'not-yet-known', message(`tortoise.gate.${name}.unknown`));
  return answer
    ? gate(name, 'passes', message(`tortoise.gate.${name}.normal`))
    : gate(name, 'fails', message(`tortoise.gate.${name}.poor`));
}

function arrivedLately({ history, onDay }: AssessInput): boolean | undefined {
  if (history.acquiredOn === undefined) return history.newArrival;
  return history.newArrival === true || daysBetween(history.acquiredOn, onDay) < TWELVE_MONTHS_DAYS;
}

const eventsOf = ({ history, onDay }: AssessInput, kind: HealthEventKind) =>
  (history.events ?? []).filter((event) => event.kind === kind && event.fromDay <= onDay);

/** True while an event goes on, and for twelve months after its last day. */
const counts = (
  event: { fromDay: string; toDay?: string | undefined },
  kind: HealthEventKind,
  onDay: string,
): boolean => {
  if (kind === 'new-arrival') return daysBetween(event.fromDay, onDay) < TWELVE_MONTHS_DAYS;
  return event.toDay === undefined || event.toDay >= onDay || daysBetween(event.toDay, onDay) < TWELVE_MONTHS_DAYS;
};

/** Illness, treatment and arrival within twelve months, which a vet may clear afterwards. */
function clearable(
  name: 'illness' | 'treatment' | 'new-arrival',
  input: AssessInput,
  kind: 'illness' | 'treatment' | 'new-arrival',
  answer: boolean | undefined,
): Gate {
  const { onDay, history } = input;
  const recorded = eventsOf(input, kind).filter((event) => counts(event, kind, onDay));
  const stillOn = kind !== 'new-arrival' && recorded.some((event) => event.toDay === undefined || event.toDay >= onDay);
  if (stillOn) return gate(name, 'fails', message(`tortoise.gate.${name}.now` as Message['key']));
  if (recorded.length === 0 && answer === undefined)
    return gate(name, 'not-yet-known', message(`tortoise.gate.${name}.unknown`));
  if (recorded.length === 0 && !answer) return gate(name, 'passes', message(`tortoise.gate.${name}.none`));
  const lastDay = recorded
    .map((event) => (kind === 'new-arrival' ? event.fromDay : (event.toDay ?? event.fromDay)))
    .concat(kind === 'new-arrival' && history.acquiredOn !== undefined ? [history.acquiredOn] : [])
    .sort()
    .at(-1);
  const cleared =
    history.vetClearance === true ||
    eventsOf(input, 'vet-clearance').some((event) =>
      lastDay === undefined ? daysBetween(event.fromDay, onDay) < TWELVE_MONTHS_DAYS : event.fromDay >= lastDay,
    );
  return cleared
    ? gate(name, 'passes', message(`tortoise.gate.${name}.cleared`))
    : gate(name, 'fails', message(`tortoise.gate.${name}.recent`));
}

function within12Months(input: AssessInput, kind: HealthEventKind): boolean {
  return eventsOf(input, kind).some((event) => daysBetween(event.fromDay, input.onDay) < TWELVE_MONTHS_DAYS);
}

function parasitesGate(input: AssessInput): Gate {
  if (input.history.parasitesChecked || within12Months(input, 'parasite-check'))
    return gate('parasites', 'passes', message('tortoise.gate.parasites.checked'));
  return gate('parasites', 'not-yet-known', message('tortoise.gate.parasites.notChecked'));
}

function eggsGate(input: AssessInput): Gate {
  const { sex, sclMm, history, onDay } = input;
  const carrying = eventsOf(input, 'eggs').some((event) => event.toDay === undefined || event.toDay >= onDay);
  if (history.carryingEggs || carrying) return gate('eggs', 'fails', message('tortoise.gate.eggs.carrying'));
  const grown = (findSpecies(input.species)?.adultSclMm ?? 120) * EGGS_FROM_SHARE_OF_ADULT;
  if (sex === 'male') return gate('eggs', 'passes', message('tortoise.gate.eggs.male'));
  if (sclMm < grown) return gate('eggs', 'passes', message('tortoise.gate.eggs.small'));
  return history.carryingEggs === false
    ? gate('eggs', 'passes', message('tortoise.gate.eggs.none'))
    : gate('eggs', 'not-yet-known', message('tortoise.gate.eggs.unknown'));
}

function hydrationGate({ history }: AssessInput): Gate {
  if (history.hydrated === undefined)
    return gate('hydration', 'not-yet-known', message('tortoise.gate.hydration.unknown'));
  return history.hydrated
    ? gate('hydration', 'passes', message('tortoise.gate.hydration.good'))
    : gate('hydration', 'borderline', message('tortoise.gate.hydration.dry'));
}

const vetChecked = (input: AssessInput): boolean =>
  input.history.vetCheck === true || within12Months(input, 'vet-check') || within12Months(input, 'vet-clearance');

/** A vet's look is asked for where the animal is old, is new, or any answer so far is doubtful. */
function vetGate({ input, length }: GateQuestion, gates: readonly Gate[]): Gate {
  const wanted: Message | undefined =
    length.lengthClass === 'elderly'
      ? message('tortoise.gate.vet-check.old')
      : arrivedLately(input) || within12Months(input, 'new-arrival')
        ? message('tortoise.gate.vet-check.new')
        : gates.some((each) => each.state === 'borderline')
          ? message('tortoise.gate.vet-check.doubtful')
          : undefined;
  if (vetChecked(input)) return gate('vet-check', 'passes', message('tortoise.gate.vet-check.done'));
  return wanted
    ? gate('vet-check', 'not-yet-known', wanted)
    : gate('vet-check', 'passes', message('tortoise.gate.vet-check.notNeeded'));
}

function gutGate({ history }: AssessInput): Gate {
  if (history.gutCleared === undefined)
    return gate('gut-cleared', 'not-yet-known', message('tortoise.gate.gut.unknown'));
  return history.gutCleared
    ? gate('gut-cleared', 'passes', message('tortoise.gate.gut.cleared'))
    : gate('gut-cleared', 'borderline', message('tortoise.gate.gut.full'));
}

function bathGate({ history, onDay }: AssessInput): Gate {
  if (history.lastBathOn === undefined)
    return gate('last-bath', 'not-yet-known', message('tortoise.gate.bath.unknown'));
  const ago = daysBetween(history.lastBathOn, onDay);
  if (ago < 1) return gate('last-bath', 'borderline', message('tortoise.gate.bath.wet'));
  return ago <= LAST_BATH_WITHIN_DAYS
    ? gate('last-bath', 'passes', message('tortoise.gate.bath.done', { days: ago }))
    : gate('last-bath', 'borderline', message('tortoise.gate.bath.long', { days: ago }));
}

function startMassGate({ history, massG }: AssessInput): Gate {
  if (history.startMassG === undefined)
    return gate('start-mass', 'not-yet-known', message('tortoise.gate.start.unknown'));
  const values = { start: mass(history.startMassG), mass: mass(massG) };
  return Math.abs(history.startMassG / massG - 1) > START_MASS_DIFFERENCE
    ? gate('start-mass', 'borderline', message('tortoise.gate.start.differs', values))
    : gate('start-mass', 'passes', message('tortoise.gate.start.recorded', values));
}
