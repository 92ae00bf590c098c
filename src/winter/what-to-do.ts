import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import type { MessageKey } from '../wording/say.ts';
import type { WhatToDoPage } from './watch-types.ts';

/** One page of *What to do now*: steps in order, read in twenty seconds in a cold shed, the last of them whom to call. */
export interface WhatToDo {
  readonly id: WhatToDoPage;
  readonly title: MessageKey;
  /** How to know that this is the page. */
  readonly when: MessageKey;
  readonly steps: readonly MessageKey[];
  /** Whom to call, and when: always the last step. */
  readonly call: MessageKey;
  /** Dangers of the steps themselves. */
  readonly cautions: readonly MessageKey[];
  readonly source: Source;
}

const VET = 'winter.do.call.vet';
const HELPER = 'winter.do.call.helper';
const FIRE = 'winter.caution.heat';
const HANDS = 'winter.caution.hands';
const NOT_A_VET = 'winter.caution.notVet';

const page = (
  id: WhatToDoPage,
  stepCount: number,
  call: MessageKey,
  cautions: MessageKey[],
  source: Source = COMMON_PRACTICE,
): WhatToDo => ({
  id,
  title: `winter.do.${id}.title` as MessageKey,
  when: `winter.do.${id}.when` as MessageKey,
  steps: Array.from({ length: stepCount }, (_, i) => `winter.do.${id}.${i + 1}` as MessageKey),
  call,
  cautions,
  source,
});

const SEVEN_DAYS: Source = {
  cite: 'Beaumont Veterinary Centre; netvet.co.uk; In & Around, 2022-09: vet by day 7',
  status: 'read',
  note: 'Ten days is the limit of common practice.',
};
const TEN_PER_CENT: Source = { cite: 'Bundestierärztekammer; In & Around, 2022-09', status: 'read' };

export const WHAT_TO_DO: readonly WhatToDo[] = [
  page('frost', 5, VET, [FIRE, NOT_A_VET], {
    cite: 'Packard et al. 2000, Herpetologica 56:367-374; Costanzo & Claussen 1990, J. Exp. Zool.',
    status: 'abstract',
    note: 'Body fluid of turtles freezes near −0.7 °C. The steps are common practice.',
  }),
  page('too-warm', 4, HELPER, [NOT_A_VET]),
  page('power-cut', 4, HELPER, [FIRE]),
  page('urine-passed', 4, VET, [HANDS, NOT_A_VET]),
  page('weight-limit', 4, VET, [HANDS, NOT_A_VET], TEN_PER_CENT),
  page('awake-early', 4, HELPER, [NOT_A_VET]),
  page('rodents', 4, VET, ['winter.caution.poison', HANDS]),
  page('probe-silent', 4, HELPER, [FIRE]),
  page('not-responding', 5, VET, [NOT_A_VET]),
  page('not-eating', 4, VET, [FIRE, HANDS, NOT_A_VET], SEVEN_DAYS),
];

/** The page with this id. Throws RangeError for an unknown one. */
export function whatToDo(id: WhatToDoPage): WhatToDo {
  const found = WHAT_TO_DO.find((one) => one.id === id);
  if (!found) throw new RangeError(`There is no page "${id}"`);
  return found;
}
