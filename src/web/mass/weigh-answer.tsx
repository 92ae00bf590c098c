import { Link } from '@tanstack/react-router';
import type { JudgedWeighIn } from '../../physiology/mass-estimator.ts';
import { weighInMessage } from '../../physiology/weigh-in-message.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';

/** What a weigh-in means, at once; one that does not fit asks for a second weighing and says which figure counts meanwhile. */
export function WeighAnswer({ judged }: { readonly judged: JudgedWeighIn }) {
  const figures = useFigures();
  const serious = judged.weighAgain || judged.event?.kind === 'step-confirmed' || judged.event?.kind === 'urine';
  return (
    <div className="note" data-level={serious ? 'act' : undefined} role="status">
      {judged.weighAgain ? (
        <p>
          <strong>{say('web.mass.again')}</strong>
        </p>
      ) : null}
      <p>{say(weighInMessage(judged, figures.massUnit))}</p>
      {judged.weighAgain ? <p>{say('web.mass.counts', { mass: figures.mass(judged.worseG) })}</p> : null}
      {serious ? (
        <Link
          to="/now/$pageId"
          params={{ pageId: (judged.event?.stepG ?? 0) < 0 ? 'weight-limit' : 'urine-passed' }}
          className="button"
        >
          {say('web.round.whatToDo')}
        </Link>
      ) : null}
    </div>
  );
}
