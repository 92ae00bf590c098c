import type { Examination } from '../../schema/examination.ts';
import type { HealthEvent } from '../../schema/health-event.ts';

/** Days are counted from the shortest day of the winter that is shown; before it they are negative. */
export interface DemoAnimal {
  readonly number: number;
  readonly name: string;
  readonly species: string;
  readonly sex: 'female' | 'male' | 'unknown';
  /** Age on the shortest day; `bornDays` gives a birth date, `aboutYears` an age nobody knows exactly. */
  readonly bornDays?: number;
  readonly aboutYears?: number;
  readonly acquiredDays: number;
  readonly wintersSlept: number;
  readonly marks: string;
  readonly notes?: string;
  /** Size on the first day of the plan, and how much of it was there two years before. */
  readonly massG: number;
  readonly sclMm: number;
  readonly grownShare: number;
  readonly findings: Examination['findings'];
  readonly answers?: Examination['answers'];
  readonly events: readonly { kind: HealthEvent['kind']; fromDays: number; toDays?: number; note?: string }[];
  /** What is planned; without it nothing has been planned yet. */
  readonly wish?: 'sleep' | 'awake' | 'first-cooling';
  readonly sleepDays?: { readonly from: number; readonly nights: number };
  readonly box?: 'fish-box' | 'cart-box' | 'larder-box' | 'cellar-box';
  readonly method?: 'place' | 'refrigerator';
}

const CLEAR = {
  eyes: 'clear',
  nose: 'clear',
  mouth: 'clear',
  limbs: 'clear',
  shell: 'clear',
  tail: 'clear',
  breathing: 'clear',
  droppings: 'clear',
} as const;
const WELL = {
  appetiteNormal: true,
  weightNormal: true,
  hydrated: true,
  carryingEggs: false,
  illness: false,
  treatment: false,
} as const;
const PARASITES = { kind: 'parasite-check', fromDays: -112, note: 'Droppings looked at: nothing found.' } as const;

export const DEMO_ANIMALS: readonly DemoAnimal[] = [
  {
    number: 11,
    name: 'Sedge',
    species: 'Testudo hermanni boettgeri',
    sex: 'female',
    bornDays: -6340,
    acquiredDays: -5900,
    wintersSlept: 15,
    marks: 'A chip out of the third marginal on the left.',
    massG: 1184,
    sclMm: 178,
    grownShare: 0.9,
    findings: CLEAR,
    answers: WELL,
    events: [PARASITES, { kind: 'vet-check', fromDays: -140, note: 'Yearly look, all well.' }],
    wish: 'sleep',
    sleepDays: { from: -46, nights: 82 },
    box: 'fish-box',
  },
  {
    number: 12,
    name: 'Bramble',
    species: 'Testudo hermanni hermanni',
    sex: 'male',
    bornDays: -4880,
    acquiredDays: -4500,
    wintersSlept: 11,
    marks: 'Very dark plastron, two unbroken bands.',
    massG: 662,
    sclMm: 142,
    grownShare: 0.86,
    findings: CLEAR,
    answers: WELL,
    events: [PARASITES, { kind: 'vet-check', fromDays: -140, note: 'Yearly look, all well.' }],
    wish: 'sleep',
    sleepDays: { from: -38, nights: 77 },
    box: 'cart-box',
  },
  {
    number: 13,
    name: 'Thatch',
    species: 'Testudo graeca ibera',
    sex: 'female',
    aboutYears: 68,
    acquiredDays: -12_400,
    wintersSlept: 60,
    marks: 'Old healed crack across the second vertebral.',
    notes: 'Came with the house, so the neighbours say. Slow to wake, then first at the cucumber.',
    massG: 1695,
    sclMm: 205,
    grownShare: 0.99,
    findings: { ...CLEAR, shell: 'old-damage' },
    answers: WELL,
    events: [
      PARASITES,
      { kind: 'vet-check', fromDays: -121, note: 'Looked over because of her age; may sleep a short while.' },
    ],
    wish: 'sleep',
    sleepDays: { from: -6, nights: 35 },
    box: 'cellar-box',
  },
  {
    number: 14,
    name: 'Quill',
    species: 'Testudo marginata',
    sex: 'male',
    bornDays: -7060,
    acquiredDays: -3650,
    wintersSlept: 17,
    marks: 'Flared rear marginals, the last one on the right bent upwards.',
    massG: 2640,
    sclMm: 262,
    grownShare: 0.96,
    findings: CLEAR,
    answers: WELL,
    events: [PARASITES, { kind: 'vet-check', fromDays: -140, note: 'Yearly look, all well.' }],
    wish: 'sleep',
    sleepDays: { from: -22, nights: 70 },
    box: 'larder-box',
    method: 'refrigerator',
  },
  {
    number: 15,
    name: 'Pip',
    species: 'Testudo hermanni boettgeri',
    sex: 'unknown',
    bornDays: -470,
    acquiredDays: -430,
    wintersSlept: 0,
    marks: 'One of Sedge’s; thumb-print shaped patch on the nuchal scute.',
    massG: 52,
    sclMm: 56,
    grownShare: 0.32,
    findings: { ...CLEAR, shell: 'soft-young' },
    answers: { ...WELL },
    events: [PARASITES],
    wish: 'awake',
  },
  {
    number: 16,
    name: 'Comfrey',
    species: 'Testudo horsfieldii',
    sex: 'female',
    aboutYears: 14,
    acquiredDays: -2500,
    wintersSlept: 8,
    marks: 'Four claws on each forefoot; notch in the right costal.',
    notes: 'Runny nose in September; stays up this winter.',
    massG: 1046,
    sclMm: 168,
    grownShare: 0.97,
    findings: { ...CLEAR, nose: 'discharge' },
    answers: { ...WELL, appetiteNormal: false, weightNormal: false, illness: true, treatment: true },
    events: [
      PARASITES,
      { kind: 'illness', fromDays: -110, toDays: -84, note: 'Runny nose, bubbles when she breathed.' },
      { kind: 'treatment', fromDays: -106, toDays: -86, note: 'Twenty days of treatment by the vet.' },
    ],
    wish: 'awake',
  },
  {
    number: 17,
    name: 'Saffron',
    species: 'Stigmochelys pardalis',
    sex: 'female',
    bornDays: -3800,
    acquiredDays: -3400,
    wintersSlept: 0,
    marks: 'Straw-coloured, a dark blot on the fourth vertebral.',
    notes: 'A tropical kind: warm and lit all winter, never put to sleep.',
    massG: 4610,
    sclMm: 291,
    grownShare: 0.84,
    findings: CLEAR,
    answers: WELL,
    events: [PARASITES],
    wish: 'awake',
  },
  {
    number: 18,
    name: 'Nettle',
    species: 'unknown',
    sex: 'male',
    aboutYears: 20,
    acquiredDays: -118,
    wintersSlept: 3,
    marks: 'Spurs on the thighs, supracaudal scute whole; a drill hole in a rear marginal.',
    notes: 'Found walking along the lane. Kept apart until somebody can say what he is.',
    massG: 874,
    sclMm: 161,
    grownShare: 1,
    findings: { ...CLEAR, droppings: 'loose' },
    answers: { appetiteNormal: true },
    events: [{ kind: 'new-arrival', fromDays: -118, note: 'Found; nobody asked for him.' }],
    wish: 'awake',
  },
];
