import { registerSW } from 'virtual:pwa-register';
import { useEffect, useRef, useState } from 'react';
import { say } from '../../wording/say.ts';

/** Keeps the screens on this device, and offers a new version when there is one: never by itself, a form may be half typed. */
export function NewVersion() {
  const [waiting, setWaiting] = useState(false);
  const update = useRef<(reload?: boolean) => Promise<void>>(undefined);
  useEffect(() => {
    if (!('serviceWorker' in navigator)) return;
    update.current = registerSW({ onNeedRefresh: () => setWaiting(true) });
  }, []);
  if (!waiting) return null;
  return (
    <p className="note no-print" role="status">
      {say('web.version.waiting')}{' '}
      <button type="button" className="button" onClick={() => update.current?.(true)}>
        {say('web.version.take')}
      </button>
    </p>
  );
}
