import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import type { MessageKey } from '../wording/say.ts';
import type { WhatToDoPage } from './watch-types.ts';

/** The entries beside which a page stands, so that the answer is there before the worried message is written. */
export type NormalBeside =
  | 'lid-opened'
  | 'touch-response'
  | 'moved'
  | 'weigh-in'
  | 'temperature'
  | 'awake-signs'
  | 'droppings'
  | 'urine'
  | 'bath'
  | 'fed'
  | 'drank'
  | 'examination';

type NormalId =
  | 'lies-out'
  | 'touch'
  | 'shifts'
  | 'grams'
  | 'gain'
  | 'breathing'
  | 'swing'
  | 'eyes'
  | 'wet-bedding'
  | 'first-drink'
  | 'first-food'
  | 'first-urine';

export interface WhatIsNormal {
  readonly id: NormalId;
  readonly when: 'asleep' | 'waking';
  readonly beside: readonly NormalBeside[];
  readonly normal: MessageKey;
  readonly notNormal: MessageKey;
  /** What to do when it is not. */
  readonly page: WhatToDoPage;
  readonly source: Source;
}

const row = (
  id: NormalId,
  when: WhatIsNormal['when'],
  beside: NormalBeside[],
  page: WhatToDoPage,
  source: Source = COMMON_PRACTICE,
): WhatIsNormal => ({
  id,
  when,
  beside,
  normal: `winter.normal.${id}.yes`,
  notNormal: `winter.normal.${id}.no`,
  page,
  source,
});

export const WHAT_IS_NORMAL: readonly WhatIsNormal[] = [
  row('lies-out', 'asleep', ['lid-opened', 'examination'], 'not-responding'),
  row('touch', 'asleep', ['touch-response'], 'not-responding'),
  row('shifts', 'asleep', ['moved', 'awake-signs'], 'awake-early'),
  row('grams', 'asleep', ['weigh-in'], 'weight-limit', {
    cite: 'zoologic.cat (up to 1 % a month); Beaumont Veterinary Centre (1 to 2 % a month)',
    status: 'read',
    note: 'An adult’s figure: small animals lose more of themselves.',
  }),
  row('gain', 'asleep', ['weigh-in'], 'weight-limit', {
    cite: 'García Jurado 2011 and earlier, weekly weighings of T. hermanni, Catalonia',
    status: 'read',
    note: 'Mass recovers part of the loss after humid spells.',
  }),
  row('breathing', 'asleep', ['lid-opened', 'touch-response'], 'not-responding'),
  row('swing', 'asleep', ['temperature'], 'too-warm'),
  row('eyes', 'asleep', ['examination', 'lid-opened'], 'not-responding'),
  row('wet-bedding', 'asleep', ['droppings', 'urine', 'lid-opened'], 'urine-passed'),
  row('first-drink', 'waking', ['bath', 'drank'], 'not-eating'),
  row('first-food', 'waking', ['fed'], 'not-eating', {
    cite: 'Beaumont Veterinary Centre (most eat within 24 to 48 h; none by 7 days: vet)',
    status: 'read',
  }),
  row('first-urine', 'waking', ['urine', 'bath'], 'not-eating', {
    cite: 'In & Around, 2022-09',
    status: 'read',
  }),
];

/** The pages that stand beside an entry, of a sleeping or a waking animal. */
export function normalBeside(beside: NormalBeside, when: WhatIsNormal['when']): readonly WhatIsNormal[] {
  return WHAT_IS_NORMAL.filter((one) => one.when === when && one.beside.includes(beside));
}
