import { createPublicKey, createVerify } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ChannelGoneError, type Letter, TryLaterError } from '../../src/notices/letter.ts';
import { makePushKeys, sendPush } from '../../src/notices/push.ts';
import { decryptPush, startPushReceiver } from '../support/push-receiver.ts';

const b64 = (text: string) => Buffer.from(text, 'base64url');
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
    const opened = decryptPush(
      Buffer.concat([b64(header), b64(ciphertext)]),
      b64('q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94'),
      b64('BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4'),
      b64('BTBZMqHH6r4Tts7J_aSIgg'),
    );
    expect(opened.toString()).toBe('When I grow up, I want to be a watermelon');
  });

  describe('sent to a push service', () => {
    let service: Awaited<ReturnType<typeof startPushReceiver>>;
    const keys = makePushKeys();
    const settings = { subject: 'mailto:tutor@example.org', ...keys };
    beforeAll(async () => {
      service = await startPushReceiver();
    });
    afterAll(() => service.stop());

    it('is encrypted for the device, urgent, short-lived and signed by the server (RFC 8030, 8291, 8292)', async () => {
      await sendPush(settings, service.target, letter);
      const { headers } = service.got.at(-1)!;
      expect(headers).toMatchObject({ ttl: '3600', urgency: 'high', topic: 'abc', 'content-encoding': 'aes128gcm' });
      expect(JSON.parse(service.opened())).toMatchObject({
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
        aud: new URL(service.target.endpoint).origin,
        sub: 'mailto:tutor@example.org',
      });
    });

    it.each([404, 410])('takes %d for a device that is gone', async (status) => {
      service.answer = { status, headers: {} };
      await expect(sendPush(settings, service.target, letter)).rejects.toThrow(ChannelGoneError);
    });

    it('tries later when asked to', async () => {
      service.answer = { status: 429, headers: { 'retry-after': '120' } };
      const error = await sendPush(settings, service.target, letter).catch((caught: unknown) => caught);
      expect(error).toBeInstanceOf(TryLaterError);
      expect((error as TryLaterError).afterS).toBe(120);
    });

    it('keeps a very long text within the size every push service takes', async () => {
      service.answer = { status: 201, headers: {} };
      await sendPush(settings, service.target, { ...letter, text: 'ä'.repeat(5000) });
      expect(service.got.at(-1)!.body.length).toBeLessThanOrEqual(4096);
    });
  });
});
