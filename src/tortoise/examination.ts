import { COMMON_PRACTICE, type Source } from '../measure/source.ts';
import { type Message, message } from '../wording/say.ts';
import { FINDINGS, type FindingRow } from './examination-table.ts';
import type { ExaminationMoment, ExaminationPart, Findings, GateState } from './types.ts';

/** The guided list, in the order in which one looks. */
export const EXAMINATION_PARTS: readonly ExaminationPart[] = [
  'eyes',
  'nose',
  'mouth',
  'limbs',
  'shell',
  'tail',
  'breathing',
  'droppings',
];

/** The answers a keeper can give for one part at one moment, `clear` first. */
export function findingsFor(part: ExaminationPart, moment: ExaminationMoment): FindingRow[] {
  return FINDINGS.filter((row) => row.part === part && row[moment] !== undefined);
}

export interface PartJudged {
  readonly state: GateState;
  /** What was seen and what it means. */
  readonly reason: Message;
  /** What to do about it at that moment. */
  readonly advice: Message;
  readonly source: Source;
}

/** Judges one part: the worst of its findings. Throws RangeError for a code that is not in the list. */
export function judgePart(part: ExaminationPart, findings: Findings, moment: ExaminationMoment): PartJudged {
  const given = findings[part];
  const codes = given === undefined ? [] : typeof given === 'string' ? [given] : given;
  if (codes.length === 0)
    return {
      state: 'not-yet-known',
      reason: message(`tortoise.examination.${part}.not-looked`),
      advice: message(`tortoise.examination.advice.${moment}.not-yet-known`),
      source: COMMON_PRACTICE,
    };
  let worst: PartJudged | undefined;
  for (const code of codes) {
    const row = findingsFor(part, moment).find((each) => each.code === code);
    const state = row?.[moment];
    if (!row || state === undefined) throw new RangeError(`"${code}" is no finding for ${part} (${moment})`);
    if (!worst || SEVERITY.indexOf(state) > SEVERITY.indexOf(worst.state))
      worst = {
        state,
        reason: message(`tortoise.examination.${part}.${code}` as Message['key']),
        advice: message(`tortoise.examination.advice.${moment}.${state}`),
        source: row.source,
      };
  }
  return worst!;
}

const SEVERITY: readonly GateState[] = ['passes', 'not-yet-known', 'borderline', 'fails'];
