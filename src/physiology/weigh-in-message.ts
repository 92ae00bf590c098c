import { type MassUnit, mass, percent } from '../measure/figures.ts';
import { type Message, message } from '../wording/say.ts';
import type { JudgedWeighIn } from './mass-estimator.ts';

/** One weigh-in in a sentence: as expected, lighter than expected, or the event it is and what to do next. */
export function weighInMessage(judged: JudgedWeighIn, unit: MassUnit = 'g'): Message {
  const { weighIn, expectedG, event } = judged;
  const values = {
    weighed: mass(weighIn.massG, unit),
    low: mass(expectedG.low, unit),
    high: mass(expectedG.high, unit),
    step: mass(Math.abs(event?.stepG ?? 0), unit),
    share: percent(Math.abs(event?.stepG ?? 0) / expectedG.mid, 1),
  };
  if (!event) return message(judged.underExpected ? 'physiology.mass.under' : 'physiology.mass.expected', values);
  const perhaps = event.perhapsG[0];
  if (event.kind === 'wrong-unit')
    return message('physiology.mass.wrong-unit', {
      ...values,
      unit: event.unit ?? 'g',
      perhaps: mass(perhaps ?? weighIn.massG, unit),
    });
  if (perhaps !== undefined && event.kind !== 'step-confirmed')
    return message(event.stepG < 0 ? 'physiology.mass.drop-or-slip' : 'physiology.mass.rise-or-slip', {
      ...values,
      perhaps: mass(perhaps, unit),
    });
  return message(`physiology.mass.${event.kind}`, values);
}
