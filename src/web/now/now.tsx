import { Link, useParams } from '@tanstack/react-router';
import { WHAT_IS_NORMAL } from '../../winter/what-is-normal.ts';
import { WHAT_TO_DO } from '../../winter/what-to-do.ts';
import { say } from '../../wording/say.ts';
import { NotFound } from '../app/not-found.tsx';
import { useAnswer } from '../data/queries.ts';
import { SourceLine, Why } from '../parts/text.tsx';

/** Draws again once the group is known, whose units the words are said in; who is not signed in, or offline for the first time, reads °C. */
const useReadersUnits = () => useAnswer('group');

/** The emergencies, each by how one knows it. */
export function NowList() {
  useReadersUnits();
  return (
    <>
      <h1>{say('web.now.title')}</h1>
      <p className="lead">{say('web.now.lead')}</p>
      <ul className="lines">
        {WHAT_TO_DO.map((page) => (
          <li key={page.id}>
            <Link to="/now/$pageId" params={{ pageId: page.id }} className="animal-link">
              <span className="animal-name">{say(page.title)}</span>
              <span className="soft">{say(page.when)}</span>
            </Link>
          </li>
        ))}
      </ul>
      <h2>{say('web.normal.lead')}</h2>
      <dl className="facts">
        {WHAT_IS_NORMAL.map((one) => (
          <div key={one.id}>
            <dt>{say(one.normal)}</dt>
            <dd>
              {say(one.notNormal)}{' '}
              <Link to="/now/$pageId" params={{ pageId: one.page }}>
                {say('web.round.whatToDo')}
              </Link>
              <Why>
                <SourceLine source={one.source} />
              </Why>
            </dd>
          </div>
        ))}
      </dl>
    </>
  );
}

/** One emergency: steps in order, the last of them whom to call. */
export function NowPage() {
  const { pageId } = useParams({ from: '/now/$pageId' });
  useReadersUnits();
  const page = WHAT_TO_DO.find((one) => one.id === pageId);
  if (!page) return <NotFound />;
  return (
    <>
      <h1>{say(page.title)}</h1>
      <p className="lead">{say(page.when)}</p>
      <ol className="steps">
        {page.steps.map((step) => (
          <li key={step}>{say(step)}</li>
        ))}
        <li>
          <strong>{say('web.now.call')}:</strong> {say(page.call)}
        </li>
      </ol>
      {page.cautions.map((caution) => (
        <p key={caution} className="note">
          {say(caution)}
        </p>
      ))}
      <Why>
        <SourceLine source={page.source} />
      </Why>
      <p>
        <Link to="/now" className="button">
          {say('web.now.back')}
        </Link>
      </p>
    </>
  );
}
