/** Why this device cannot be reached by push here; undefined when it can. */
export type PushObstacle = 'not-https' | 'no-support' | 'no-key' | 'refused';

export function pushObstacle(pushKey: string | null): PushObstacle | undefined {
  if (!window.isSecureContext) return 'not-https';
  if (!('serviceWorker' in navigator) || !('PushManager' in window) || !('Notification' in window)) return 'no-support';
  if (pushKey === null) return 'no-key';
  return Notification.permission === 'denied' ? 'refused' : undefined;
}

export interface PushAddress {
  readonly endpoint: string;
  readonly p256dh: string;
  readonly auth: string;
}

/** Asks the person and then the browser for an address this device can be reached at; undefined: the person said no. */
export async function pushAddress(pushKey: string): Promise<PushAddress | undefined> {
  if ((await Notification.requestPermission()) !== 'granted') return undefined;
  const worker = await navigator.serviceWorker.ready;
  const known = await worker.pushManager.getSubscription();
  // A subscription made for another key of the server can no longer be written to.
  if (known && !sameKey(known.options.applicationServerKey, pushKey)) await known.unsubscribe();
  const subscription = await worker.pushManager.subscribe({
    userVisibleOnly: true,
    applicationServerKey: bytesOf(pushKey),
  });
  const { endpoint, keys } = subscription.toJSON();
  return { endpoint: endpoint ?? subscription.endpoint, p256dh: keys?.p256dh ?? '', auth: keys?.auth ?? '' };
}

function bytesOf(base64url: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64url.replaceAll('-', '+').replaceAll('_', '/'));
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

function sameKey(key: ArrayBuffer | null, base64url: string): boolean {
  const wanted = bytesOf(base64url);
  const bytes = key ? new Uint8Array(key) : new Uint8Array();
  return bytes.length === wanted.length && bytes.every((byte, index) => byte === wanted[index]);
}
