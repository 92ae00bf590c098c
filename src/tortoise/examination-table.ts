import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import type { ExaminationMoment, ExaminationPart, GateState } from './types.ts';

/**
 * One answer of the guided examination and the gate state it gives. Before sleep a failed part means no sleep this winter;
 * asleep it means waking the animal now; on waking it means a vet. A moment is left out where the answer cannot be given then.
 */
export interface FindingRow extends Partial<Record<ExaminationMoment, GateState>> {
  readonly part: ExaminationPart;
  readonly code: string;
  readonly source: Source;
}

const DEHYDRATION: Source = { ...COMMON_PRACTICE, note: 'Sunken eyes are the usual sign of too little water.' };
const COLD_EYES: Source = {
  cite: 'Gea Chelonia, on hibernating Testudo in Bulgaria',
  status: 'read',
  note: 'Long cold damages the eyes.',
};
const MUSCLE: Source = {
  cite: 'Frankenberger, Ballouard, Caron, Zablotski & Kölle 2024, PLOS ONE 19(4):e0301892',
  status: 'abstract',
  note: 'The muscle of the forelimb and the tissue round neck and shoulder are looked at in a body condition score.',
};
const REDDENED: Source = {
  cite: 'Bundestierärztekammer (German chamber of veterinary surgeons), via Westdeutsche Zeitung',
  status: 'read',
  note: 'Reddening of the plastron: to a vet at once; look at each weighing.',
};
const WAKING_URINE: Source = {
  cite: 'netvet.co.uk, anorexia and hibernation; Beaumont Veterinary Centre',
  status: 'read',
  note: 'Awake again: no food or urine by day 7 is a matter for the vet.',
};

export const FINDINGS: readonly FindingRow[] = [
  { part: 'eyes', code: 'clear', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'eyes', code: 'sunken', before: 'fails', asleep: 'fails', waking: 'borderline', source: DEHYDRATION },
  { part: 'eyes', code: 'closed', before: 'fails', waking: 'borderline', source: COMMON_PRACTICE },
  { part: 'eyes', code: 'swollen', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'eyes', code: 'discharge', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'eyes', code: 'cloudy', before: 'fails', waking: 'fails', source: COLD_EYES },
  { part: 'nose', code: 'clear', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'nose', code: 'discharge', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  {
    part: 'nose',
    code: 'blocked',
    before: 'borderline',
    asleep: 'borderline',
    waking: 'borderline',
    source: COMMON_PRACTICE,
  },
  { part: 'mouth', code: 'clear', before: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'mouth', code: 'plaque', before: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'mouth', code: 'slime', before: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'mouth', code: 'reddened', before: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'mouth', code: 'would-not-open', before: 'not-yet-known', waking: 'not-yet-known', source: COMMON_PRACTICE },
  { part: 'limbs', code: 'clear', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'limbs', code: 'swollen', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'limbs', code: 'weak', before: 'fails', waking: 'borderline', source: COMMON_PRACTICE },
  { part: 'limbs', code: 'thin', before: 'fails', asleep: 'borderline', waking: 'fails', source: MUSCLE },
  { part: 'limbs', code: 'wound', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'limbs', code: 'no-response', asleep: 'borderline', source: COMMON_PRACTICE },
  { part: 'shell', code: 'clear', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'shell', code: 'soft', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'shell', code: 'soft-young', before: 'borderline', waking: 'borderline', source: COMMON_PRACTICE },
  { part: 'shell', code: 'smell', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'shell', code: 'discharge', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'shell', code: 'reddened', before: 'fails', asleep: 'fails', waking: 'fails', source: REDDENED },
  { part: 'shell', code: 'old-damage', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'tail', code: 'clear', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  {
    part: 'tail',
    code: 'soiled',
    before: 'borderline',
    asleep: 'borderline',
    waking: 'borderline',
    source: COMMON_PRACTICE,
  },
  { part: 'tail', code: 'swollen', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'tail', code: 'discharge', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'tail', code: 'prolapse', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'breathing', code: 'clear', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'breathing', code: 'noisy', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  {
    part: 'breathing',
    code: 'open-mouthed',
    before: 'fails',
    asleep: 'fails',
    waking: 'fails',
    source: COMMON_PRACTICE,
  },
  { part: 'breathing', code: 'bubbles', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'droppings', code: 'clear', before: 'passes', asleep: 'passes', waking: 'passes', source: COMMON_PRACTICE },
  { part: 'droppings', code: 'none', before: 'borderline', waking: 'borderline', source: WAKING_URINE },
  { part: 'droppings', code: 'loose', before: 'borderline', waking: 'borderline', source: COMMON_PRACTICE },
  { part: 'droppings', code: 'undigested', before: 'fails', waking: 'borderline', source: COMMON_PRACTICE },
  { part: 'droppings', code: 'worms', before: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'droppings', code: 'blood', before: 'fails', asleep: 'fails', waking: 'fails', source: COMMON_PRACTICE },
  { part: 'droppings', code: 'urine', asleep: 'fails', source: COMMON_PRACTICE },
  { part: 'droppings', code: 'passed', asleep: 'borderline', source: COMMON_PRACTICE },
];
