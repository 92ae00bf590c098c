import webPush from 'web-push';
import { ChannelGoneError, type Letter, TryLaterError } from './letter.ts';

export interface PushSettings {
  /** Contact that push services may write to: `mailto:` or an https address. */
  readonly subject: string;
  readonly publicKey: string;
  readonly privateKey: string;
}

export interface PushTarget {
  readonly endpoint: string;
  readonly p256dh: string;
  readonly auth: string;
}

/** Makes the pair of keys that names this server to push services. Made once and kept: a new pair ends every subscription. */
export function makePushKeys(): { publicKey: string; privateKey: string } {
  return webPush.generateVAPIDKeys();
}

/** A letter as the service worker receives it. A push message holds 3,993 bytes of text (RFC 8291, body of 4,096). */
function pushBody(letter: Letter): string {
  const body = { id: letter.id, level: letter.level, title: letter.title, text: letter.text, path: letter.path };
  const whole = JSON.stringify(body);
  return Buffer.byteLength(whole) <= 3900 ? whole : JSON.stringify({ ...body, text: `${letter.text.slice(0, 900)} …` });
}

/** Sends one letter to one device, encrypted for it (RFC 8291) and signed by this server (RFC 8292). */
export async function sendPush(settings: PushSettings, target: PushTarget, letter: Letter): Promise<void> {
  const subscription = { endpoint: target.endpoint, keys: { p256dh: target.p256dh, auth: target.auth } };
  try {
    await webPush.sendNotification(subscription, pushBody(letter), {
      vapidDetails: { subject: settings.subject, publicKey: settings.publicKey, privateKey: settings.privateKey },
      TTL: letter.ttlS,
      topic: letter.topic,
      urgency: letter.level === 'act-now' ? 'high' : 'normal',
      contentEncoding: 'aes128gcm',
      timeout: 15_000,
    });
  } catch (error) {
    const { statusCode, headers } = error as { statusCode?: number; headers?: Record<string, string> };
    const reason = error instanceof Error ? error.message : String(error);
    if (statusCode === 404 || statusCode === 410) throw new ChannelGoneError(reason);
    const after = Number(headers?.['retry-after']);
    throw new TryLaterError(
      statusCode === undefined ? reason : `${reason} (${statusCode})`,
      Number.isFinite(after) ? after : undefined,
    );
  }
}
