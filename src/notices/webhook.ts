import { createHmac, timingSafeEqual } from 'node:crypto';
import { lookup } from 'node:dns/promises';
import { request as httpRequest } from 'node:http';
import { request as httpsRequest } from 'node:https';
import { BlockList, isIP } from 'node:net';
import { ChannelGoneError, type Letter, TryLaterError } from './letter.ts';

/** Addresses no call may go to: this machine itself, link-local (where clouds keep their secrets), multicast, unspecified. */
const forbidden = new BlockList();
forbidden.addSubnet('127.0.0.0', 8, 'ipv4');
forbidden.addSubnet('0.0.0.0', 8, 'ipv4');
forbidden.addSubnet('169.254.0.0', 16, 'ipv4');
forbidden.addSubnet('224.0.0.0', 3, 'ipv4');
forbidden.addAddress('::1', 'ipv6');
forbidden.addAddress('::', 'ipv6');
forbidden.addSubnet('fe80::', 10, 'ipv6');
forbidden.addSubnet('ff00::', 8, 'ipv6');
/** Plain http is for machines at home; anything that leaves the house is encrypted. */
const home = new BlockList();
home.addSubnet('10.0.0.0', 8, 'ipv4');
home.addSubnet('172.16.0.0', 12, 'ipv4');
home.addSubnet('192.168.0.0', 16, 'ipv4');
home.addSubnet('fc00::', 7, 'ipv6');

export interface WebhookOptions {
  /** For a receiver on this machine that its owner has named on purpose. */
  readonly allowThisMachine?: boolean;
}

/** Whether a call may go to this address over this scheme. */
export function mayCall(address: string, secure: boolean, options: WebhookOptions = {}): boolean {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1] ?? address;
  const family = isIP(mapped) === 6 ? 'ipv6' : 'ipv4';
  if (forbidden.check(mapped, family))
    return options.allowThisMachine === true && (mapped === '::1' || mapped.startsWith('127.'));
  return secure || home.check(mapped, family);
}

/** Signature of a body: HMAC-SHA-256 over the time, a dot and the body, in hex (RFC 2104). */
function sign(secret: string, timeS: number, body: string): string {
  return createHmac('sha256', secret).update(`${timeS}.${body}`).digest('hex');
}

/** What a receiver does: true for a body signed with the secret within five minutes of now. */
export function verify(secret: string, timeS: number, body: string, signature: string, nowS: number): boolean {
  const expected = Buffer.from(sign(secret, timeS, body), 'hex');
  const given = Buffer.from(signature, 'hex');
  return Math.abs(nowS - timeS) <= 300 && given.length === expected.length && timingSafeEqual(expected, given);
}

/** Calls an address with a letter as signed JSON. Redirects are not followed; the call goes to just the address that was checked. */
export async function callWebhook(
  url: string,
  secret: string,
  letter: Letter,
  nowMs: number,
  options: WebhookOptions = {},
): Promise<void> {
  const target = new URL(url);
  const secure = target.protocol === 'https:';
  const found = await lookup(target.hostname.replace(/^\[|\]$/g, ''), { all: true }).catch((error: Error) => {
    throw new TryLaterError(error.message);
  });
  const address = found.find((one) => mayCall(one.address, secure, options));
  if (!address) throw new ChannelGoneError(`calls to ${target.hostname} are not allowed`);
  const { id, level, title, text, path } = letter;
  const body = JSON.stringify({ id, level, title, text, path });
  const timeS = Math.floor(nowMs / 1000);
  const status = await new Promise<number>((resolve, reject) => {
    const call = (secure ? httpsRequest : httpRequest)(
      {
        host: address.address,
        ...(secure ? { servername: target.hostname } : {}),
        port: target.port || (secure ? 443 : 80),
        path: `${target.pathname}${target.search}`,
        method: 'POST',
        timeout: 10_000,
        headers: {
          host: target.host,
          'content-type': 'application/json',
          'content-length': Buffer.byteLength(body),
          'stillwinter-time': String(timeS),
          'stillwinter-signature': sign(secret, timeS, body),
          'idempotency-key': letter.id,
        },
      },
      (answer) => {
        // The answer's body is of no interest; it is not read.
        answer.destroy();
        resolve(answer.statusCode ?? 0);
      },
    );
    call.on('timeout', () => call.destroy(new Error('no answer within 10 s')));
    call.on('error', (error) => reject(new TryLaterError(error.message)));
    call.end(body);
  });
  if (status === 410) throw new ChannelGoneError('the address says it is gone (410)');
  if (status < 200 || status >= 300) throw new TryLaterError(`the address answered ${status}`);
}
