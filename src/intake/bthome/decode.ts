import { createDecipheriv } from 'node:crypto';
import { BTHOME_OBJECTS, BTHOME_WITH_LENGTH, type BthomeMeaning } from './objects.ts';

export interface BthomeFrame {
  /** Address of the sender, when the frame carries it: `A4:C1:38:8D:18:B2`. */
  readonly mac?: string;
  /** True for a device that sends when something happens, not at an interval. */
  readonly irregular: boolean;
  /** Values in the order sent; the same meaning twice is two sensors on one device. */
  readonly values: readonly { readonly meaning: BthomeMeaning; readonly value: number }[];
  /** True when the objects do not come in rising order, as the standard asks. */
  readonly outOfOrder: boolean;
  /** Rising counter of an encrypted frame. */
  readonly counter?: number;
}

/** Why a frame was refused. */
export class BthomeError extends Error {}

export interface BthomeKey {
  /** 16 bytes. */
  readonly key: Uint8Array;
  /** Address of the sender, `54:48:E6:8F:80:A5`, for frames that do not carry it. */
  readonly mac?: string;
}

const UUID = Buffer.from([0xd2, 0xfc]);

/**
 * Decodes the service data of BTHome v2 that follows its UUID (0xFCD2). An unknown object ends the decoding, a cut last value is dropped; what came before is kept.
 *
 * @throws BthomeError for another version, an encrypted frame without key, a frame that does not decrypt, or a plain one from a device that has a key
 */
export function decodeBthome(service: Uint8Array, secret?: BthomeKey): BthomeFrame {
  const info = service[0];
  if (info === undefined) throw new BthomeError('the frame is empty');
  if (info >> 5 !== 2) throw new BthomeError(`version ${info >> 5} of the format is not known`);
  const encrypted = (info & 1) === 1;
  const carriesMac = (info & 2) === 2;
  if (carriesMac && service.length < 7) throw new BthomeError('the frame ends inside the address');
  const macBytes = carriesMac ? Buffer.from(service.subarray(1, 7)).reverse() : undefined;
  let body = Buffer.from(service.subarray(carriesMac ? 7 : 1));
  let counter: number | undefined;
  if (encrypted) {
    if (!secret) throw new BthomeError('the frame is encrypted and no key is known for its sender');
    if (body.length < 9) throw new BthomeError('the frame is too short to be encrypted');
    const mac = macBytes ?? macFrom(secret.mac);
    const count = body.subarray(body.length - 8, body.length - 4);
    counter = count.readUInt32LE(0);
    const nonce = Buffer.concat([mac, UUID, Buffer.from([info]), count]);
    const decipher = createDecipheriv('aes-128-ccm', secret.key, nonce, { authTagLength: 4 });
    decipher.setAuthTag(body.subarray(body.length - 4));
    try {
      const plain = decipher.update(body.subarray(0, body.length - 8));
      decipher.final();
      body = plain;
    } catch {
      throw new BthomeError('the frame does not decrypt with the key known for its sender');
    }
  } else if (secret) throw new BthomeError('the frame is not encrypted although its sender has a key');
  return {
    ...(macBytes
      ? { mac: [...macBytes].map((byte) => byte.toString(16).padStart(2, '0').toUpperCase()).join(':') }
      : {}),
    irregular: (info & 4) === 4,
    ...readObjects(body),
    ...(counter === undefined ? {} : { counter }),
  };
}

function readObjects(body: Buffer): Pick<BthomeFrame, 'values' | 'outOfOrder'> {
  const values: { meaning: BthomeMeaning; value: number }[] = [];
  let outOfOrder = false;
  let last = -1;
  for (let at = 0; at < body.length; ) {
    const id = body[at]!;
    if (id < last) outOfOrder = true;
    last = id;
    at += 1;
    if (BTHOME_WITH_LENGTH.has(id)) {
      at += 1 + (body[at] ?? 0);
      continue;
    }
    const object = BTHOME_OBJECTS.get(id);
    if (!object || at + object.bytes > body.length) break;
    const raw = object.signed ? body.readIntLE(at, object.bytes) : body.readUIntLE(at, object.bytes);
    at += object.bytes;
    // Factors are decimal; rounding takes back what binary multiplication adds.
    if (object.meaning) values.push({ meaning: object.meaning, value: Math.round(raw * object.factor * 1e6) / 1e6 });
  }
  return { values, outOfOrder };
}

function macFrom(text: string | undefined): Buffer {
  const bytes = Buffer.from((text ?? '').replaceAll(':', ''), 'hex');
  if (bytes.length !== 6) throw new BthomeError('the address of the sender is needed to decrypt the frame');
  return bytes;
}

/** Finds the BTHome service data inside a whole advertisement (length, type, data …); `undefined` when there is none. */
export function bthomeServiceData(advertisement: Uint8Array): Uint8Array | undefined {
  for (let at = 0; at + 1 < advertisement.length; ) {
    const length = advertisement[at]!;
    const type = advertisement[at + 1]!;
    if (length === 0) return undefined;
    if (type === 0x16 && advertisement[at + 2] === 0xd2 && advertisement[at + 3] === 0xfc)
      return advertisement.subarray(at + 4, at + 1 + length);
    at += 1 + length;
  }
  return undefined;
}
