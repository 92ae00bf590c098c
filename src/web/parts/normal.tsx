import { Link } from '@tanstack/react-router';
import { type NormalBeside, WHAT_IS_NORMAL } from '../../winter/what-is-normal.ts';
import { say } from '../../wording/say.ts';

/** What is normal beside an entry, before the worried message is written; and what is not, with what to do then. */
export function Normal({ beside }: { readonly beside: readonly NormalBeside[] }) {
  const rows = WHAT_IS_NORMAL.filter((one) => one.beside.some((entry) => beside.includes(entry)));
  return (
    <dl className="facts normal-facts">
      {rows.map((one) => (
        <div key={one.id}>
          <dt>{say('web.normal.title')}</dt>
          <dd>
            {say(one.normal)} <strong>{say('web.normal.not')}:</strong> {say(one.notNormal)}{' '}
            <Link to="/now/$pageId" params={{ pageId: one.page }}>
              {say('web.round.whatToDo')}
            </Link>
          </dd>
        </div>
      ))}
    </dl>
  );
}
