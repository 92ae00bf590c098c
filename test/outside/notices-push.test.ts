import { createDecipheriv, createECDH, createHmac, createPublicKey, createVerify } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ChannelGoneError, type Letter, TryLaterError } from '../../src/notices/letter.ts';
import { makePushKeys, sendPush } from '../../src/notices/push.ts';
import { localCertificate } from '../support/certificate.ts';

const b64 = (text: string) => Buffer.from(text, 'base64url');
const hmac = (key: Buffer, ...data: (Buffer | string)[]) => {
  const mac = createHmac('sha256', key);
  for (const part of data) mac.update(part);
  return mac.digest();
};

/** Decrypts a push message as a browser does, written from RFC 8291 section 3 and RFC 8188 section 2 alone. */
function decrypt(message: Buffer, privateKey: Buffer, publicKey: Buffer, auth: Buffer): Buffer {
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

const letter: Letter = {
  id: '01980d2e-7c00-7000-8000-000000000001',
  level: 'act-now',
  title: 'Act now: Sedge, Tool shed',
  text: '1.6 °C for 40 minutes',
  path: '/notices/1',
  topic: 'abc',
  ttlS: 3600,
};

describe('push messages', () => {
  it('the decryption used here opens the example of RFC 8291, appendix A', () => {
    const header =
      'DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A8';
    const ciphertext = '8pfeW0KbunFT06SuDKoJH9Ql87S1QUrdirN6GcG7sFz1y1sqLgVi1VhjVkHsUoEsbI_0LpXMuGvnzQ';
    const opened = decrypt(
      Buffer.concat([b64(header), b64(ciphertext)]),
      b64('q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94'),
      b64('BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4'),
      b64('BTBZMqHH6r4Tts7J_aSIgg'),
    );
    expect(opened.toString()).toBe('When I grow up, I want to be a watermelon');
  });

  describe('sent to a push service', () => {
    let server: ReturnType<typeof createServer>;
    let port = 0;
    let answer = { status: 201, headers: {} as Record<string, string> };
    const got: { headers: IncomingHttpHeaders; body: Buffer }[] = [];
    const device = createECDH('prime256v1');
    const publicKey = device.generateKeys();
    const auth = Buffer.alloc(16, 7);
    const keys = makePushKeys();
    const settings = { subject: 'mailto:tutor@example.org', ...keys };
    const target = () => ({
      endpoint: `https://localhost:${port}/send/1`,
      p256dh: publicKey.toString('base64url'),
      auth: auth.toString('base64url'),
    });
    const before = process.env.NODE_TLS_REJECT_UNAUTHORIZED;

    beforeAll(async () => {
      const { key, certificate } = await localCertificate();
      server = createServer({ key, cert: certificate }, (request, response) => {
        const parts: Buffer[] = [];
        request.on('data', (part: Buffer) => parts.push(part));
        request.on('end', () => {
          got.push({ headers: request.headers, body: Buffer.concat(parts) });
          response.writeHead(answer.status, answer.headers).end();
        });
      });
      await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
      port = (server.address() as AddressInfo).port;
      process.env.NODE_TLS_REJECT_UNAUTHORIZED = '0';
    });
    afterAll(() => {
      if (before === undefined) delete process.env.NODE_TLS_REJECT_UNAUTHORIZED;
      else process.env.NODE_TLS_REJECT_UNAUTHORIZED = before;
      server.close();
    });

    it('is encrypted for the device, urgent, short-lived and signed by the server (RFC 8030, 8291, 8292)', async () => {
      await sendPush(settings, target(), letter);
      const { headers, body } = got.at(-1)!;
      expect(headers).toMatchObject({ ttl: '3600', urgency: 'high', topic: 'abc', 'content-encoding': 'aes128gcm' });
      expect(JSON.parse(decrypt(body, device.getPrivateKey(), publicKey, auth).toString())).toMatchObject({
        title: letter.title,
        text: letter.text,
      });
      const [, token = '', k = ''] = /^vapid t=([^,]+), ?k=(.+)$/.exec(headers.authorization ?? '') ?? [];
      expect(k).toBe(keys.publicKey);
      const [head = '', claims = '', signature = ''] = token.split('.');
      const point = b64(k);
      const jwk = {
        kty: 'EC',
        crv: 'P-256',
        x: point.subarray(1, 33).toString('base64url'),
        y: point.subarray(33).toString('base64url'),
      };
      const verify = createVerify('sha256').update(`${head}.${claims}`);
      expect(
        verify.verify({ key: createPublicKey({ key: jwk, format: 'jwk' }), dsaEncoding: 'ieee-p1363' }, b64(signature)),
      ).toBe(true);
      expect(JSON.parse(b64(claims).toString())).toMatchObject({
        aud: `https://localhost:${port}`,
        sub: 'mailto:tutor@example.org',
      });
    });

    it.each([404, 410])('takes %d for a device that is gone', async (status) => {
      answer = { status, headers: {} };
      await expect(sendPush(settings, target(), letter)).rejects.toThrow(ChannelGoneError);
    });

    it('tries later when asked to', async () => {
      answer = { status: 429, headers: { 'retry-after': '120' } };
      const error = await sendPush(settings, target(), letter).catch((caught: unknown) => caught);
      expect(error).toBeInstanceOf(TryLaterError);
      expect((error as TryLaterError).afterS).toBe(120);
    });

    it('keeps a very long text within the size every push service takes', async () => {
      answer = { status: 201, headers: {} };
      await sendPush(settings, target(), { ...letter, text: 'ä'.repeat(5000) });
      expect(got.at(-1)!.body.length).toBeLessThanOrEqual(4096);
    });
  });
});
