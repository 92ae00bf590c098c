import { useEffect, useRef, useState } from 'react';
import type { Workbox } from 'workbox-window';
import { say } from '../../wording/say.ts';

/** Keeps the screens on this device, and offers a new version when there is one: never by itself, a form may be half typed. */
export function NewVersion() {
  const [waiting, setWaiting] = useState(false);
  const keeper = useRef<Workbox>(undefined);
  useEffect(() => {
    if (!('serviceWorker' in navigator)) return;
    void import('workbox-window')
      .then(({ Workbox }) => {
        const workbox = new Workbox('/sw.js');
        keeper.current = workbox;
        workbox.addEventListener('waiting', () => setWaiting(true));
        return workbox.register();
      })
      .catch(() => undefined);
  }, []);
  if (!waiting) return null;
  return (
    <p className="note no-print" role="status">
      {say('web.version.waiting')}{' '}
      <button
        type="button"
        className="button"
        onClick={() => {
          keeper.current?.addEventListener('controlling', () => location.reload());
          keeper.current?.messageSkipWaiting();
        }}
      >
        {say('web.version.take')}
      </button>
    </p>
  );
}
