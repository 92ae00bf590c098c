import { Link } from '@tanstack/react-router';
import { say } from '../../wording/say.ts';

export function NotFound() {
  return (
    <>
      <h1>{say('web.notFound.title')}</h1>
      <p>{say('web.notFound.text')}</p>
      <Link to="/">{say('web.nav.round')}</Link>
    </>
  );
}
