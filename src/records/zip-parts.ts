import { createHash } from 'node:crypto';
import { Readable } from 'node:stream';
import { createInflateRaw } from 'node:zlib';
import { notAnExport } from './export.ts';

/** Bytes unpacked at a time. */
const AT_ONCE = 64 * 1024;
/** A line longer than this is none of ours. */
const LONGEST_LINE = 65_536;
const [DIRECTORY_END, DIRECTORY_ENTRY, FILE_HEADER] = [0x06054b50, 0x02014b50, 0x04034b50];
const [STORED, DEFLATED] = [0, 8];

/** Where a file of a zip lies and how large it says it is, bytes. */
interface Place {
  readonly method: number;
  readonly from: number;
  readonly packedBytes: number;
  readonly bytes: number;
}

/**
 * Where the file of this name lies, by the directory at the end of the zip (PKWARE APPNOTE 6.3.10, 4.3.7, 4.3.12 and 4.3.16; archives over
 * 4 GB are none of ours). Undefined where there is none, or where what is said does not fit.
 */
function placeOf(zip: Uint8Array, name: string): Place | undefined {
  const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength);
  let end = zip.byteLength - 22;
  while (end >= 0 && view.getUint32(end, true) !== DIRECTORY_END) end -= 1;
  if (end < 0) return undefined;
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; left -= 1) {
    if (at + 46 > end || view.getUint32(at, true) !== DIRECTORY_ENTRY) return undefined;
    const named = view.getUint16(at + 28, true);
    const found = new TextDecoder().decode(zip.subarray(at + 46, at + 46 + named)) === name;
    if (found) {
      const header = view.getUint32(at + 42, true);
      if (header + 30 > end || view.getUint32(header, true) !== FILE_HEADER) return undefined;
      const from = header + 30 + view.getUint16(header + 26, true) + view.getUint16(header + 28, true);
      const packedBytes = view.getUint32(at + 20, true);
      if (from + packedBytes > end) return undefined;
      return { method: view.getUint16(at + 10, true), from, packedBytes, bytes: view.getUint32(at + 24, true) };
    }
    at += 46 + named + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return undefined;
}

/** The file unpacked piece by piece, never more than its directory says. Throws RecordProblem. */
async function* bytesOf(zip: Uint8Array, name: string): AsyncGenerator<Uint8Array> {
  const place = placeOf(zip, name);
  if (!place || (place.method !== DEFLATED && place.method !== STORED)) throw notAnExport(name);
  const packed = zip.subarray(place.from, place.from + place.packedBytes);
  const source = Readable.from(slices(packed));
  let bytes = 0;
  try {
    for await (const piece of place.method === STORED
      ? source
      : source.pipe(createInflateRaw({ chunkSize: AT_ONCE }))) {
      bytes += piece.byteLength;
      if (bytes > place.bytes) break;
      yield piece;
    }
  } catch {
    throw notAnExport(name);
  }
  if (bytes !== place.bytes) throw notAnExport(name);
}

function* slices(packed: Uint8Array): Generator<Uint8Array> {
  for (let from = 0; from < packed.byteLength; from += AT_ONCE) yield packed.subarray(from, from + AT_ONCE);
}

/** SHA-256 of an unpacked file, hexadecimal. Throws RecordProblem. */
export async function sumOf(zip: Uint8Array, name: string): Promise<string> {
  const sum = createHash('sha256');
  for await (const piece of bytesOf(zip, name)) sum.update(piece);
  return sum.digest('hex');
}

/** The text of a file in pieces of whole lines, the end of each line (CRLF) included; the last may have none. Throws RecordProblem. */
export async function* textPieces(zip: Uint8Array, name: string): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  const decoded = (piece?: Uint8Array) => {
    try {
      return decoder.decode(piece, { stream: piece !== undefined });
    } catch {
      throw notAnExport(name);
    }
  };
  let rest = '';
  for await (const piece of bytesOf(zip, name)) {
    const text = rest + decoded(piece);
    const whole = text.lastIndexOf('\r\n') + 1;
    if (text.length - whole > LONGEST_LINE) throw notAnExport(name);
    // The end of line goes with what it ends.
    const cut = whole === 0 ? 0 : whole + 1;
    rest = text.slice(cut);
    if (cut > 0) yield text.slice(0, cut);
  }
  rest += decoded();
  if (rest !== '') yield rest;
}
