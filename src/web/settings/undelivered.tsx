import { Link } from '@tanstack/react-router';
import type { Notice } from '../../schema/notice.ts';
import { say } from '../../wording/say.ts';
import { useAnswer } from '../data/queries.ts';

interface Undelivered {
  readonly noticeId: string;
  readonly level: Notice['level'] | null;
  readonly personId: string;
  readonly attempts: number;
  readonly lastError: string;
  readonly givenUp: boolean;
}

/** A message that reached nobody is itself something to see: whoever looks at the round must not think that others know. */
export function UndeliveredNote() {
  const all = useAnswer<readonly Undelivered[]>('undelivered').data ?? [];
  // A digest that is late is no alarm: the round shows alarms, the settings show every way that fails.
  const list = all.filter((one) => one.level === 'act-now');
  if (list.length === 0) return null;
  const given = list.filter((one) => one.givenUp).length;
  return (
    <section className="note" data-level="act" aria-labelledby="undelivered">
      <h2 id="undelivered">{say('web.undelivered.title', { count: list.length })}</h2>
      <p>
        {say('web.undelivered.what')} {given > 0 ? say('web.undelivered.givenUp', { count: given }) : ''}
      </p>
      <p className="small">
        {say('web.undelivered.why', { why: [...new Set(list.map((one) => one.lastError))].join('; ') })}
      </p>
      <Link to="/settings">{say('web.undelivered.look')}</Link>
    </section>
  );
}
