import { Link, Outlet, useRouterState } from '@tanstack/react-router';
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Group } from '../../schema/group.ts';
import type { Session } from '../../schema/person.ts';
import { say } from '../../wording/say.ts';
import { Problem } from '../data/client.ts';
import { StandingContext } from '../data/group.ts';
import { usePart } from '../data/later.ts';
import { useOutbox } from '../data/outbox.ts';
import { useAnswer } from '../data/queries.ts';
import { Trouble } from '../parts/state.tsx';
import { JustDeleted } from '../record/just-deleted.tsx';
import { NewVersion } from './new-version.tsx';
import { sections } from './sections.ts';
import { SignIn } from './sign-in.tsx';

const firstGroupPart = () => import('./first-group.tsx');

/** The frame of every screen: the way to each section, and What to do now always in the same place. */
export function Shell() {
  const [open, setOpen] = useState(false);
  const path = useRouterState({ select: (state) => state.location.pathname });
  // While the next screen is fetched the one before it is still shown, and still needs its group.
  const shown = useRouterState({ select: (state) => state.matches.at(-1)?.pathname ?? state.location.pathname });
  const main = useRef<HTMLElement>(null);
  const cameFrom = useRef(path);
  useEffect(() => {
    if (cameFrom.current === path) return;
    cameFrom.current = path;
    setOpen(false);
    // A new screen begins at its heading, for eyes, keyboard and screen reader alike.
    main.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [path]);
  return (
    <>
      <a className="skip" href="#main">
        {say('web.skip')}
      </a>
      <header className="head">
        <div className="head-row">
          <Link to="/" className="brand">
            Stillwinter
          </Link>
          <nav className="nav" id="sections" aria-label={say('web.nav.label')} data-open={open ? '' : undefined}>
            {sections.map(([to, key]) => (
              <SectionLink key={to} to={to} here={path}>
                {say(key)}
              </SectionLink>
            ))}
          </nav>
          <Link to="/now" className="head-now">
            <span>{say('web.nav.now')}</span>
          </Link>
          <button
            type="button"
            className="button menu-button"
            aria-expanded={open}
            aria-controls="sections"
            onClick={() => setOpen(!open)}
          >
            {say('web.nav.menu')}
          </button>
        </div>
      </header>
      <main id="main" className="page" ref={main} tabIndex={-1}>
        <NewVersion />
        <Outbox />
        {/^\/(now|join|shared)(\/|$)/.test(shown) ? <Outlet /> : <Standing />}
        <JustDeleted />
      </main>
      <footer className="foot">
        <div>{say('web.foot.caution')}</div>
      </footer>
    </>
  );
}

function SectionLink({
  to,
  here,
  children,
}: {
  readonly to: string;
  readonly here: string;
  readonly children: ReactNode;
}) {
  const current = to === '/' ? here === '/' : here === to || here.startsWith(`${to}/`);
  return (
    <Link to={to} aria-current={current ? 'page' : undefined}>
      <span>{children}</span>
    </Link>
  );
}

/** Asks who is looking before any screen with animals in it; What to do now needs nobody's leave. */
function Standing() {
  const session = useAnswer<Session>('session');
  const signedIn = session.data !== undefined && session.data.role !== undefined;
  const group = useAnswer<Group>('group', signedIn);
  const noGroup = group.error instanceof Problem && group.error.status === 404;
  const first = usePart(firstGroupPart, noGroup);
  if (session.error && !session.data)
    return session.error instanceof Problem && session.error.status === 401 ? (
      <SignIn />
    ) : (
      <Trouble error={session.error} again={session.refetch} />
    );
  if (session.data && !signedIn) return <SignIn />;
  if (session.data && noGroup && first) return <first.FirstGroup />;
  if (group.error && !group.data && !noGroup) return <Trouble error={group.error} again={group.refetch} />;
  if (!session.data || !group.data)
    return (
      <p className="soft" role="status">
        {say('web.reading')}
      </p>
    );
  return (
    <StandingContext value={{ session: session.data, group: group.data }}>
      {session.data.demonstration ? <p className="small soft no-print">{say('web.demonstration')}</p> : null}
      <Outlet />
    </StandingContext>
  );
}

/** Entries that the server would not keep are shown on every screen until they are mended or let go. */
function Outbox() {
  const refused = useOutbox().filter((entry) => entry.refused);
  if (refused.length === 0) return null;
  return (
    <p className="note no-print" data-level="act" role="status">
      {say('web.outbox.refused', { count: refused.length })} <Link to="/settings">{say('web.outbox.look')}</Link>
    </p>
  );
}
