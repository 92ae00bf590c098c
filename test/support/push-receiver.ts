import { createDecipheriv, createECDH, createHmac } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { localCertificate } from './certificate.ts';

const hmac = (key: Buffer, ...data: (Buffer | string)[]) => {
  const mac = createHmac('sha256', key);
  for (const part of data) mac.update(part);
  return mac.digest();
};

/** Decrypts a push message as a browser does, written from RFC 8291 section 3 and RFC 8188 section 2 alone. */
export function decryptPush(message: Buffer, privateKey: Buffer, publicKey: Buffer, auth: Buffer): Buffer {
  const salt = message.subarray(0, 16);
  const senderLength = message[20]!;
  const sender = message.subarray(21, 21 + senderLength);
  const body = message.subarray(21 + senderLength);
  const ecdh = createECDH('prime256v1');
  ecdh.setPrivateKey(privateKey);
  const keyPrk = hmac(auth, ecdh.computeSecret(sender));
  const ikm = hmac(keyPrk, 'WebPush: info\0', publicKey, sender, Buffer.from([1]));
  const prk = hmac(salt, ikm);
  const key = hmac(prk, 'Content-Encoding: aes128gcm\0', Buffer.from([1])).subarray(0, 16);
  const nonce = hmac(prk, 'Content-Encoding: nonce\0', Buffer.from([1])).subarray(0, 12);
  const decipher = createDecipheriv('aes-128-gcm', key, nonce);
  decipher.setAuthTag(body.subarray(body.length - 16));
  const padded = Buffer.concat([decipher.update(body.subarray(0, body.length - 16)), decipher.final()]);
  const end = padded.lastIndexOf(2);
  return padded.subarray(0, end);
}

interface PushReceiver {
  readonly target: { readonly endpoint: string; readonly p256dh: string; readonly auth: string };
  readonly got: { readonly headers: IncomingHttpHeaders; readonly body: Buffer }[];
  /** What it answers from now on. */
  answer: { status: number; headers: Record<string, string> };
  /** The last message, opened with the keys of the device. */
  opened(): string;
  stop(): void;
}

/** Stands in for a push service and the device behind it, over TLS on this machine. Certificates are not checked while it runs. */
export async function startPushReceiver(): Promise<PushReceiver> {
  const device = createECDH('prime256v1');
  const publicKey = device.generateKeys();
  const auth = Buffer.alloc(16, 7);
  const { key, certificate } = await localCertificate();
  const got: PushReceiver['got'] = [];
  const server = createServer({ key, cert: certificate }, (request, response) => {
    const parts: Buffer[] = [];
    request.on('data', (part: Buffer) => parts.push(part));
    request.on('end', () => {
      got.push({ headers: request.headers, body: Buffer.concat(parts) });
      response.writeHead(receiver.answer.status, receiver.answer.headers).end();
    });
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const before = process.env.NODE_TLS_REJECT_UNAUTHORIZED;
  process.env.NODE_TLS_REJECT_UNAUTHORIZED = '0';
  const receiver: PushReceiver = {
    target: {
      endpoint: `https://localhost:${(server.address() as AddressInfo).port}/send/1`,
      p256dh: publicKey.toString('base64url'),
      auth: auth.toString('base64url'),
    },
    got,
    answer: { status: 201, headers: {} },
    opened: () => decryptPush(got.at(-1)!.body, device.getPrivateKey(), publicKey, auth).toString(),
    stop: () => {
      if (before === undefined) delete process.env.NODE_TLS_REJECT_UNAUTHORIZED;
      else process.env.NODE_TLS_REJECT_UNAUTHORIZED = before;
      server.close();
    },
  };
  return receiver;
}
