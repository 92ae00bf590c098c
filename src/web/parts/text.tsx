import { Fragment, type ReactNode } from 'react';
import type { Source } from '../../measure/source.ts';
import { type Message, type MessageKey, say } from '../../wording/say.ts';

const MARK = '\u0001';

/** A sentence of the catalogue with elements in the places of its values. */
export function sayWith(key: MessageKey, parts: Readonly<Record<string, ReactNode>>): ReactNode {
  const marked = Object.fromEntries(Object.keys(parts).map((name) => [name, `${MARK}${name}${MARK}`]));
  return say(key, marked)
    .split(MARK)
    .map((piece, index) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: the pieces of one sentence never change places
      <Fragment key={index}>{index % 2 === 1 ? parts[piece] : piece}</Fragment>
    ));
}

/** The words with a capital at their beginning. */
export const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** A message that came over the wire: one this build has no words for is told as such instead of breaking the screen. */
export function sayMessage(sent: { readonly key: string; readonly values?: Message['values'] }): string {
  try {
    return say(sent as Message);
  } catch {
    return say('web.message.unknown');
  }
}

/** Reasons and sources, one tap away. */
export function Why({ label, children }: { readonly label?: string; readonly children: ReactNode }) {
  return (
    <details className="why">
      <summary>{label ?? say('web.why.short')}</summary>
      <div>{children}</div>
    </details>
  );
}

const statusKeys = {
  read: 'web.source.read',
  abstract: 'web.source.abstract',
  quoted: 'web.source.quoted',
  data: 'web.source.data',
  'from-memory': 'web.source.from-memory',
  derived: 'web.source.derived',
  'common-practice': 'web.source.common-practice',
  estimate: 'web.source.estimate',
} as const satisfies Record<Source['status'], MessageKey>;

/** Where a value comes from, and how well it was checked. */
export function SourceLine({
  source,
}: {
  readonly source: { readonly cite: string; readonly status: string; readonly note?: string | undefined };
}) {
  const status = statusKeys[source.status as Source['status']];
  return (
    <p className="small soft">
      {say('web.source', { cite: source.cite })}
      {status && source.status !== 'common-practice' ? ` (${say(status)})` : ''}
      {source.note ? `. ${source.note}` : ''}
    </p>
  );
}

/** What an empty screen will show, and the first step. */
export function Empty({ children }: { readonly children: ReactNode }) {
  return <div className="empty">{children}</div>;
}
