import { useNavigate, useParams } from '@tanstack/react-router';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { PersonForm } from '../group/set-up.tsx';

/** Where the link of an invitation leads. */
export function Join() {
  const { token } = useParams({ from: '/join/$token' });
  const navigate = useNavigate();
  return (
    <>
      <h1>{say('web.join.title')}</h1>
      <p className="lead">{say('web.join.lead')}</p>
      <PersonForm
        action={say('web.join.do')}
        send={async (body) => {
          await ask('session/join', { method: 'POST', body: { ...body, token } });
          await navigate({ to: '/' });
        }}
      />
    </>
  );
}
