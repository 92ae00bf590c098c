import { say } from '../../wording/say.ts';
import { GroupForm } from '../settings/group-form.tsx';

/** The very first screen of a new database. */
export function FirstGroup() {
  return (
    <>
      <h1>{say('web.firstGroup.title')}</h1>
      <p className="lead">{say('web.firstGroup.lead')}</p>
      <GroupForm action={say('web.firstGroup.save')} />
    </>
  );
}
