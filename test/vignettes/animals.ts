import type { AssessInput, GateName, GateState, Verdict } from '../../src/tortoise/types.ts';
import { animal, clearFindings, withHistory } from '../tortoise/sample.ts';

/** One whole animal, what is to be said of it, and on what ground. Animals are invented; grounds are not. */
export interface AnimalCase {
  readonly tale: string;
  readonly ground: string;
  readonly input: AssessInput;
  readonly verdict: Verdict;
  /** The gate that decides, and how it stands. */
  readonly gate: readonly [GateName, GateState];
  readonly ceilingDays?: number;
}

const PRACTICE = 'common practice, no source';
const UK = 'BSAVA, BVZS and BVA, joint release, 2016-10-18';
const CHAMBER = 'Bundestierärztekammer (German chamber of veterinary surgeons), via Westdeutsche Zeitung';
const JACKSON = 'Jackson 1980, J. Small Anim. Pract. 21:409-416, as quoted by others';
const PRESPA =
  'open data of Ecology Letters 2026, doi 10.1111/ele.70296; condition index after Hailey 2000, Herpetol. J. 10:57-61';
const RVC = 'J. Hedley, Royal Veterinary College, 2023';
const found = (change: Partial<AssessInput['examination']>) => animal({ examination: { ...clearFindings, ...change } });
const down = (change: Parameters<typeof withHistory>[0]) =>
  withHistory(
    { gutCleared: true, lastBathOn: '2026-11-28', startMassG: 1240, ...change },
    { moment: 'going-down', onDay: '2026-11-29' },
  );

export const ANIMAL_CASES: readonly AnimalCase[] = [
  // species
  {
    tale: 'grown female T. hermanni boettgeri, well known, all in order',
    ground: `${UK}; ${PRESPA}`,
    input: animal(),
    verdict: 'may-go-down',
    gate: ['species', 'passes'],
    ceilingDays: 91,
  },
  {
    tale: 'leopard tortoise in perfect health',
    ground: `never hibernates: tropical species (Turtles of the World); ${PRACTICE}`,
    input: animal({ species: 'Stigmochelys pardalis', massG: 4200, sclMm: 300 }),
    verdict: 'stay-awake',
    gate: ['species', 'fails'],
    ceilingDays: 0,
  },
  {
    tale: 'Egyptian tortoise, a Testudo all the same',
    ground: 'Hennig, Testudo kleinmanni portrait: never hibernates',
    input: animal({ species: 'Testudo kleinmanni', massG: 300, sclMm: 115 }),
    verdict: 'stay-awake',
    gate: ['species', 'fails'],
    ceilingDays: 0,
  },
  {
    tale: 'found in a garden, nobody knows what it is',
    ground: PRACTICE,
    input: animal({ species: 'unknown' }),
    verdict: 'stay-awake',
    gate: ['species', 'fails'],
    ceilingDays: 0,
  },
  {
    tale: 'spur and tail nail together: a hybrid',
    ground: PRACTICE,
    input: animal({ species: 'hybrid' }),
    verdict: 'stay-awake',
    gate: ['species', 'fails'],
    ceilingDays: 0,
  },
  {
    tale: 'North African T. graeca of unknown form',
    ground: 'W. Lewis, BVNA, 2022: northern forms hibernate, southern may not',
    input: animal({ species: 'Testudo graeca graeca', sex: 'male' }),
    verdict: 'wait',
    gate: ['species', 'borderline'],
  },
  {
    tale: 'the same, its form confirmed',
    ground: 'W. Lewis, BVNA, 2022',
    input: withHistory({ formConfirmed: true }, { species: 'Testudo graeca graeca', sex: 'male' }),
    verdict: 'may-go-down',
    gate: ['species', 'passes'],
  },
  {
    tale: 'T. horsfieldii, own weights good',
    ground: 'In & Around, September 2022: eight weeks',
    input: animal({ species: 'Testudo horsfieldii', sex: 'male', massG: 700, sclMm: 145 }),
    verdict: 'may-go-down',
    gate: ['condition', 'passes'],
  },
  // age and length
  {
    tale: 'hatchling of the summer, joint UK advice followed',
    ground: UK,
    input: animal({ ageYears: 0, massG: 24, sclMm: 48, sex: 'unknown' }),
    verdict: 'stay-awake',
    gate: ['age', 'fails'],
    ceilingDays: 0,
  },
  {
    tale: 'hatchling of the summer, common practice followed',
    ground: PRACTICE,
    input: animal({ ageYears: 0, massG: 24, sclMm: 48, sex: 'unknown', lengthAdvice: 'common-practice' }),
    verdict: 'may-go-down',
    gate: ['age', 'passes'],
    ceilingDays: 21,
  },
  {
    tale: 'hatchling of the summer, German advice followed',
    ground: CHAMBER,
    input: animal({ ageYears: 0, massG: 24, sclMm: 48, sex: 'unknown', lengthAdvice: 'german-chamber' }),
    verdict: 'may-go-down',
    gate: ['age', 'passes'],
    ceilingDays: 56,
  },
  {
    tale: 'second winter, two summers old',
    ground: `${UK}: six weeks`,
    input: animal({ ageYears: 1.5, massG: 110, sclMm: 78, sex: 'unknown' }),
    verdict: 'may-go-down',
    gate: ['age', 'passes'],
    ceilingDays: 42,
  },
  {
    tale: 'sixty years old, vet has not looked',
    ground: PRACTICE,
    input: animal({ ageYears: 60 }),
    verdict: 'wait',
    gate: ['vet-check', 'not-yet-known'],
  },
  {
    tale: 'sixty years old, vet has looked',
    ground: PRACTICE,
    input: withHistory({ vetCheck: true }, { ageYears: 60 }),
    verdict: 'may-go-down',
    gate: ['vet-check', 'passes'],
    ceilingDays: 42,
  },
  // measurements
  {
    tale: 'length typed in inches',
    ground: 'no tortoise of 7 mm weighs 1.24 kg (Prespa line)',
    input: animal({ sclMm: 72 }),
    verdict: 'wait',
    gate: ['measurements', 'borderline'],
  },
  {
    tale: 'length and mass that fit',
    ground: PRESPA,
    input: animal({ massG: 1300, sclMm: 182 }),
    verdict: 'may-go-down',
    gate: ['measurements', 'passes'],
  },
  // condition
  {
    tale: 'female 1400 g at 200 mm, index -0.071',
    ground: PRESPA,
    input: animal({ massG: 1400, sclMm: 200 }),
    verdict: 'may-go-down',
    gate: ['condition', 'passes'],
  },
  {
    tale: 'female 1339 g at 200 mm, index -0.090: one weighing cannot tell',
    ground: `${PRESPA}: two weighings differ by 4 %, the low limit is -0.1`,
    input: animal({ massG: 1339, sclMm: 200 }),
    verdict: 'wait',
    gate: ['condition', 'borderline'],
  },
  {
    tale: 'large female 2360 g at 234 mm: ratio 0.184 looks light, normal for her size',
    ground: PRESPA,
    input: animal({ massG: 2360, sclMm: 234 }),
    verdict: 'may-go-down',
    gate: ['condition', 'passes'],
  },
  {
    tale: 'female 1696 g at 222 mm, ratio 0.155, index -0.101',
    ground: `${PRESPA}; ${JACKSON}: seriously light`,
    input: animal({ massG: 1696, sclMm: 222 }),
    verdict: 'stay-awake',
    gate: ['condition', 'fails'],
  },
  {
    tale: 'Jackson’s own average animal, 1300 g at 180 mm',
    ground: JACKSON,
    input: animal({ massG: 1300, sclMm: 180, sex: 'unknown' }),
    verdict: 'may-go-down',
    gate: ['condition', 'passes'],
  },
  {
    tale: 'Jackson’s own average animal, 2400 g at 240 mm, ratio 0.174',
    ground: `${JACKSON}: average on his graph`,
    input: animal({ massG: 2400, sclMm: 240, sex: 'unknown', species: 'Testudo graeca ibera' }),
    verdict: 'may-go-down',
    gate: ['condition', 'passes'],
  },
  {
    tale: 'very heavy female, 1750 g at 180 mm: fluid or eggs?',
    ground: `${JACKSON}: check for swelling, fluid or eggs`,
    input: animal({ massG: 1750, sclMm: 180 }),
    verdict: 'wait',
    gate: ['condition', 'borderline'],
  },
  {
    tale: 'own record: 900 g at 150 mm, now 860 g at 165 mm',
    ground: `${PRESPA}: own exponent 2.77`,
    input: withHistory(
      { measurements: [{ day: '2025-09-20', massG: 900, sclMm: 150 }] },
      { sex: 'male', massG: 860, sclMm: 165, species: 'Testudo marginata' },
    ),
    verdict: 'stay-awake',
    gate: ['condition', 'fails'],
  },
  {
    tale: 'own record: 900 g at 150 mm, now 1180 g at 165 mm',
    ground: `${PRESPA}: own exponent 2.77 gives 1172 g`,
    input: withHistory(
      { measurements: [{ day: '2025-09-20', massG: 900, sclMm: 150 }] },
      { sex: 'male', massG: 1180, sclMm: 165, species: 'Testudo marginata' },
    ),
    verdict: 'may-go-down',
    gate: ['condition', 'passes'],
  },
  // summer
  {
    tale: 'hardly ate in late summer',
    ground: PRACTICE,
    input: withHistory({ appetiteNormal: false }),
    verdict: 'stay-awake',
    gate: ['appetite', 'fails'],
  },
  {
    tale: 'ate well all summer',
    ground: PRACTICE,
    input: withHistory({ appetiteNormal: true }),
    verdict: 'may-go-down',
    gate: ['appetite', 'passes'],
  },
  {
    tale: 'lost weight through the summer',
    ground: PRACTICE,
    input: withHistory({ weightNormal: false }),
    verdict: 'stay-awake',
    gate: ['summer-weight', 'fails'],
  },
  {
    tale: 'weight held through the summer',
    ground: PRACTICE,
    input: withHistory({ weightNormal: true }),
    verdict: 'may-go-down',
    gate: ['summer-weight', 'passes'],
  },
  // health
  {
    tale: 'runny nose cured eleven months ago',
    ground: `${UK}: not if ill; the twelve months ${PRACTICE}`,
    input: withHistory({ events: [{ kind: 'illness', fromDay: '2025-10-01', toDay: '2025-10-20' }] }),
    verdict: 'stay-awake',
    gate: ['illness', 'fails'],
  },
  {
    tale: 'runny nose cured thirteen months ago',
    ground: PRACTICE,
    input: withHistory({ events: [{ kind: 'illness', fromDay: '2025-07-20', toDay: '2025-08-10' }] }),
    verdict: 'may-go-down',
    gate: ['illness', 'passes'],
  },
  {
    tale: 'the same eleven months ago, cleared by a vet since',
    ground: PRACTICE,
    input: withHistory({
      events: [
        { kind: 'illness', fromDay: '2025-10-01', toDay: '2025-10-20' },
        { kind: 'vet-clearance', fromDay: '2026-08-30' },
      ],
    }),
    verdict: 'may-go-down',
    gate: ['illness', 'passes'],
  },
  {
    tale: 'wormed in the spring',
    ground: PRACTICE,
    input: withHistory({ events: [{ kind: 'treatment', fromDay: '2026-04-01', toDay: '2026-04-10' }] }),
    verdict: 'stay-awake',
    gate: ['treatment', 'fails'],
  },
  {
    tale: 'no treatment in years',
    ground: PRACTICE,
    input: withHistory({ treatment: false }),
    verdict: 'may-go-down',
    gate: ['treatment', 'passes'],
  },
  {
    tale: 'came in the spring from another keeper',
    ground: PRACTICE,
    input: withHistory({ acquiredOn: '2026-04-01' }),
    verdict: 'stay-awake',
    gate: ['new-arrival', 'fails'],
  },
  {
    tale: 'came thirteen months ago',
    ground: PRACTICE,
    input: withHistory({ acquiredOn: '2025-08-15' }),
    verdict: 'may-go-down',
    gate: ['new-arrival', 'passes'],
  },
  // examination
  {
    tale: 'eyes sunken',
    ground: `${PRACTICE}; dehydration`,
    input: found({ eyes: 'sunken' }),
    verdict: 'stay-awake',
    gate: ['eyes', 'fails'],
  },
  {
    tale: 'nose bubbling',
    ground: PRACTICE,
    input: found({ nose: 'discharge' }),
    verdict: 'stay-awake',
    gate: ['nose', 'fails'],
  },
  {
    tale: 'cheesy plaque in the mouth',
    ground: PRACTICE,
    input: found({ mouth: 'plaque' }),
    verdict: 'stay-awake',
    gate: ['mouth', 'fails'],
  },
  {
    tale: 'mouth kept shut, nobody looked in',
    ground: PRACTICE,
    input: found({ mouth: 'would-not-open' }),
    verdict: 'wait',
    gate: ['mouth', 'not-yet-known'],
  },
  {
    tale: 'one elbow swollen',
    ground: PRACTICE,
    input: found({ limbs: 'swollen' }),
    verdict: 'stay-awake',
    gate: ['limbs', 'fails'],
  },
  {
    tale: 'plastron reddened',
    ground: `${CHAMBER}: vet at once (septicaemia)`,
    input: found({ shell: 'reddened' }),
    verdict: 'stay-awake',
    gate: ['shell', 'fails'],
  },
  {
    tale: 'an old healed chip in the shell',
    ground: PRACTICE,
    input: found({ shell: 'old-damage' }),
    verdict: 'may-go-down',
    gate: ['shell', 'passes'],
  },
  {
    tale: 'prolapse at the tail',
    ground: PRACTICE,
    input: found({ tail: 'prolapse' }),
    verdict: 'stay-awake',
    gate: ['tail', 'fails'],
  },
  {
    tale: 'clicking breath',
    ground: PRACTICE,
    input: found({ breathing: 'noisy' }),
    verdict: 'stay-awake',
    gate: ['breathing', 'fails'],
  },
  {
    tale: 'worms in the droppings',
    ground: PRACTICE,
    input: found({ droppings: 'worms' }),
    verdict: 'stay-awake',
    gate: ['droppings', 'fails'],
  },
  {
    tale: 'soft droppings',
    ground: PRACTICE,
    input: found({ droppings: 'loose' }),
    verdict: 'wait',
    gate: ['droppings', 'borderline'],
  },
  {
    tale: 'eyes, nose, mouth, limbs, shell, tail, breathing and droppings clear',
    ground: PRACTICE,
    input: found({}),
    verdict: 'may-go-down',
    gate: ['eyes', 'passes'],
  },
  // the rest of deciding
  {
    tale: 'droppings never looked at for parasites',
    ground: PRACTICE,
    input: withHistory({ parasitesChecked: undefined }),
    verdict: 'wait',
    gate: ['parasites', 'not-yet-known'],
  },
  {
    tale: 'parasites checked this year',
    ground: PRACTICE,
    input: withHistory({ parasitesChecked: true }),
    verdict: 'may-go-down',
    gate: ['parasites', 'passes'],
  },
  {
    tale: 'female with eggs',
    ground: PRACTICE,
    input: withHistory({ carryingEggs: true }),
    verdict: 'stay-awake',
    gate: ['eggs', 'fails'],
  },
  {
    tale: 'grown female, nobody has thought of eggs',
    ground: PRACTICE,
    input: withHistory({ carryingEggs: undefined }),
    verdict: 'wait',
    gate: ['eggs', 'not-yet-known'],
  },
  {
    tale: 'grown male, nobody has thought of eggs',
    ground: PRACTICE,
    input: withHistory({ carryingEggs: undefined }, { sex: 'male' }),
    verdict: 'may-go-down',
    gate: ['eggs', 'passes'],
  },
  {
    tale: 'gritty urates, will not drink',
    ground: `${RVC}: a full bladder is the winter's store`,
    input: withHistory({ hydrated: false }),
    verdict: 'wait',
    gate: ['hydration', 'borderline'],
  },
  {
    tale: 'drinks and soaks',
    ground: RVC,
    input: withHistory({ hydrated: true }),
    verdict: 'may-go-down',
    gate: ['hydration', 'passes'],
  },
  // going down
  {
    tale: 'the day: gut empty, bathed yesterday, weighed',
    ground: `${RVC}; ${PRACTICE}`,
    input: down({}),
    verdict: 'may-go-down',
    gate: ['gut-cleared', 'passes'],
  },
  {
    tale: 'the day: food still in',
    ground: `${RVC}: warm during the fast until the gut is empty`,
    input: down({ gutCleared: false }),
    verdict: 'wait',
    gate: ['gut-cleared', 'borderline'],
  },
  {
    tale: 'the day: bathed this morning, still wet',
    ground: PRACTICE,
    input: down({ lastBathOn: '2026-11-29' }),
    verdict: 'wait',
    gate: ['last-bath', 'borderline'],
  },
  {
    tale: 'the day: last bath a week ago, as the joint UK advice has it',
    ground: UK,
    input: down({ lastBathOn: '2026-11-22' }),
    verdict: 'may-go-down',
    gate: ['last-bath', 'passes'],
  },
  {
    tale: 'the day: last bath ten days ago',
    ground: PRACTICE,
    input: down({ lastBathOn: '2026-11-19' }),
    verdict: 'wait',
    gate: ['last-bath', 'borderline'],
  },
  {
    tale: 'the day: not weighed',
    ground: PRACTICE,
    input: down({ startMassG: undefined }),
    verdict: 'wait',
    gate: ['start-mass', 'not-yet-known'],
  },
  {
    tale: 'the day: weighed, within a few grams of the mass judged',
    ground: PRACTICE,
    input: down({ startMassG: 1228 }),
    verdict: 'may-go-down',
    gate: ['start-mass', 'passes'],
  },
  {
    tale: 'deciding in late summer: gut, bath and starting mass do not count yet',
    ground: PRACTICE,
    input: withHistory({ gutCleared: false }),
    verdict: 'may-go-down',
    gate: ['species', 'passes'],
  },
];
