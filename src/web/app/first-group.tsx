import { lazy, Suspense } from 'react';
import { say } from '../../wording/say.ts';

const GroupForm = lazy(() => import('../settings/group-form.tsx').then((found) => ({ default: found.GroupForm })));

/** The very first screen of a new database. */
export function FirstGroup() {
  return (
    <>
      <h1>{say('web.firstGroup.title')}</h1>
      <p className="lead">{say('web.firstGroup.lead')}</p>
      <Suspense fallback={<p className="soft">{say('web.reading')}</p>}>
        <GroupForm action={say('web.firstGroup.save')} />
      </Suspense>
    </>
  );
}
