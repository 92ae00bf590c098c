import { Link, useParams } from '@tanstack/react-router';
import { useEffect, useRef } from 'react';
import type { Notice } from '../../schema/notice.ts';
import { WATCH_RULES } from '../../winter/watch-rules.ts';
import { say } from '../../wording/say.ts';
import { enter, useOutbox } from '../data/outbox.ts';
import { sayMessage } from '../parts/text.tsx';
import type { RoundPart } from './parts.ts';

interface NoticesProps {
  readonly notices: readonly Notice[];
  readonly parts: readonly RoundPart[];
}

const order = { 'act-now': 0, 'look-today': 1, 'for-the-record': 2 } as const;

/** What the watch has to say, gravest first, each with the steps to take. */
export function Notices({ notices, parts }: NoticesProps) {
  const seen = new Set(
    useOutbox().flatMap((entry) =>
      entry.kind === 'acknowledgement' ? [(entry.body as { noticeId: string }).noticeId] : [],
    ),
  );
  const shown = notices
    .filter((notice) => !notice.clearedAt && notice.level !== 'for-the-record')
    .sort((a, b) => order[a.level] - order[b.level]);
  return shown.map((notice) => (
    <One
      key={notice.id}
      notice={notice}
      where={whereOf(notice, parts)}
      seen={notice.acknowledged !== undefined || seen.has(notice.id)}
    />
  ));
}

function whereOf(notice: Notice, parts: readonly RoundPart[]): string {
  for (const part of parts)
    for (const stay of part.stays)
      if (stay.stayId === notice.stayId)
        return [stay.animalName, stay.boxName, part.placeName].filter(Boolean).join(', ');
  return '';
}

function One({ notice, where, seen }: { readonly notice: Notice; readonly where: string; readonly seen: boolean }) {
  const page = WATCH_RULES.find((rule) => rule.id === notice.ruleId)?.page;
  const actNow = notice.level === 'act-now';
  const asked = useParams({ strict: false }).noticeId === notice.id;
  const section = useRef<HTMLElement>(null);
  useEffect(() => {
    if (asked) section.current?.focus();
  }, [asked]);
  const title = say(actNow ? 'web.round.actNow' : 'web.round.lookToday');
  return (
    <section
      ref={section}
      tabIndex={-1}
      className={actNow ? 'alarm' : 'note'}
      role={actNow && !seen ? 'alert' : undefined}
      aria-label={`${title}: ${where}`}
    >
      <h2>
        {title}
        {where ? `: ${where}` : ''}
      </h2>
      <p>{sayMessage(notice.message)}</p>
      {page ? (
        <Link
          to="/now/$pageId"
          params={{ pageId: page }}
          className="button"
          {...(actNow ? { 'data-kind': 'act' } : {})}
        >
          {say('web.round.whatToDo')}
        </Link>
      ) : null}
      {seen ? (
        <p className="small soft">{say('web.round.seen')}</p>
      ) : (
        <button
          type="button"
          className="button"
          data-kind="quiet"
          onClick={() => enter('acknowledgement', { noticeId: notice.id, at: new Date().toISOString() })}
        >
          {say('web.round.acknowledge')}
        </button>
      )}
    </section>
  );
}
