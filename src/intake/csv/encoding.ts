import chardet from 'chardet';
import iconv from 'iconv-lite';

/** What a file turned out to be before a single row was read. */
export type FileKind = 'text' | 'zip' | 'html' | 'pdf' | 'binary' | 'empty';

export interface Encoding {
  /** Name as iconv-lite knows it. */
  readonly name: string;
  /** How it was recognised, for the preview. */
  readonly by:
    | 'mark'
    | 'zero-bytes'
    | 'strict-utf-8'
    | 'mostly-utf-8'
    | 'degree-sign'
    | 'words'
    | 'statistics'
    | 'asked';
}

/** Read with a mark in place of each bad byte. */
export const MOSTLY_UTF_8: Encoding = { name: 'utf-8', by: 'mostly-utf-8' };

const startsWith = (bytes: Uint8Array, ...head: number[]) => head.every((byte, at) => bytes[at] === byte);

/** Recognises files that only carry the name of a table: a zip, a web page, a paper, machine data. */
export function fileKind(head: Uint8Array): FileKind {
  if (head.length === 0) return 'empty';
  if (startsWith(head, 0x50, 0x4b, 0x03, 0x04)) return 'zip';
  if (startsWith(head, 0x25, 0x50, 0x44, 0x46)) return 'pdf';
  const text = new TextDecoder('utf-8').decode(head.subarray(0, 2000)).trimStart().toLowerCase();
  if (/^(<!doctype html|<html|<table|<\?xml)/.test(text)) return 'html';
  let control = 0;
  for (const byte of head) if (byte < 9 || (byte > 13 && byte < 32 && byte !== 27)) control += 1;
  // UTF-16 has a zero in every other place; anything else with this many control bytes is no text.
  return control > head.length * 0.05 && !looksUtf16(head) ? 'binary' : 'text';
}

function looksUtf16(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  const length = Math.min(bytes.length, 4096) & ~1;
  if (length < 8) return undefined;
  let even = 0;
  let odd = 0;
  for (let at = 0; at < length; at += 2) {
    if (bytes[at] === 0) even += 1;
    if (bytes[at + 1] === 0) odd += 1;
  }
  if (odd > length * 0.35 && even < length * 0.05) return 'utf-16le';
  if (even > length * 0.35 && odd < length * 0.05) return 'utf-16be';
  return undefined;
}

/** Strict UTF-8 over the sample; the last bytes may be a character cut by the end of the sample. */
function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

/** Characters of several bytes that are whole UTF-8, how many of them are degree signs, and bytes that belong to none. */
function tallyUtf8(bytes: Uint8Array): { whole: number; degrees: number; spoilt: number } {
  const tally = { whole: 0, degrees: 0, spoilt: 0 };
  for (let at = 0; at < bytes.length; ) {
    const byte = bytes[at]!;
    const length =
      byte < 0x80
        ? 1
        : byte >= 0xc2 && byte < 0xe0
          ? 2
          : byte >= 0xe0 && byte < 0xf0
            ? 3
            : byte >= 0xf0 && byte < 0xf5
              ? 4
              : 0;
    // The last character may be cut by the end of the sample.
    if (length > 1 && at + length > bytes.length) break;
    let whole = length > 0;
    for (let next = 1; next < length; next += 1) if ((bytes[at + next]! & 0xc0) !== 0x80) whole = false;
    if (!whole) tally.spoilt += 1;
    else if (length > 1) {
      tally.whole += 1;
      if (byte === 0xc2 && bytes[at + 1] === 0xb0) tally.degrees += 1;
    }
    at += whole ? length : 1;
  }
  return tally;
}

/**
 * UTF-8 but for a rare bad byte, as a line lost on its way leaves it. Legacy pages do not write whole UTF-8 characters but by chance: ten of them
 * to a bad byte, or a degree sign to each, settle it.
 */
function isMostlyUtf8(bytes: Uint8Array): boolean {
  const { whole, degrees, spoilt } = tallyUtf8(bytes);
  return whole >= 10 * Math.max(1, spoilt) || (degrees > 0 && degrees >= spoilt);
}

/** Whether a file whose beginning is sound, and which has a bad byte far below, is to be read on as UTF-8: its beginning must show more than ASCII. */
export function goesOnAsUtf8(sample: Uint8Array): boolean {
  return startsWith(sample, 0xef, 0xbb, 0xbf) || tallyUtf8(sample).whole > 0;
}

// Words that a logger's own header is likely to hold, by the legacy page that writes them.
const wordsByPage: readonly (readonly [string, RegExp])[] = [
  ['windows-1251', /температура|время|дата|влажность/i],
  ['shift_jis', /温度|日時|時刻|湿度|℃/],
  ['gb18030', /温度|时间|日期|湿度/],
  ['big5', /溫度|時間|日期|濕度/],
  ['windows-1253', /θερμοκρασία|ημερομηνία|ώρα|υγρασία/i],
  ['windows-1250', /teplota|čas|wilgotność|hőmérséklet|dátum|czas|páratartalom|vlhkost|godzina pomiaru/i],
];

/**
 * Recognises the encoding of a logger's file. Loggers write nearly nothing but digits, so statistics have little to hold:
 * the ladder is byte-order mark, zero bytes, strict UTF-8, then legacy pages judged by what the text should say
 * (a degree sign beside C or F, known column words); statistics only break a tie.
 */
export function recogniseEncoding(sample: Uint8Array): Encoding {
  if (startsWith(sample, 0xef, 0xbb, 0xbf)) return { name: 'utf-8', by: 'mark' };
  if (startsWith(sample, 0xff, 0xfe)) return { name: 'utf-16le', by: 'mark' };
  if (startsWith(sample, 0xfe, 0xff)) return { name: 'utf-16be', by: 'mark' };
  const wide = looksUtf16(sample);
  if (wide) return { name: wide, by: 'zero-bytes' };
  if (isUtf8(sample)) return { name: 'utf-8', by: 'strict-utf-8' };
  if (isMostlyUtf8(sample)) return MOSTLY_UTF_8;
  const buffer = Buffer.from(sample.buffer, sample.byteOffset, Math.min(sample.length, 65_536));
  for (const [page, words] of wordsByPage) {
    const text = iconv.decode(buffer, page);
    if (words.test(text) && !text.slice(0, 4000).includes('\ufffd')) return { name: page, by: 'words' };
  }
  // The byte before C or F says which page wrote the degree sign.
  const counts = new Map<number, number>();
  for (let at = 0; at + 1 < buffer.length; at += 1) {
    const byte = buffer[at]!;
    const next = buffer[at + 1]!;
    if (byte >= 0x80 && (next === 0x43 || next === 0x46)) counts.set(byte, (counts.get(byte) ?? 0) + 1);
  }
  const most = [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
  if (most === 0xb0) return { name: 'windows-1252', by: 'degree-sign' };
  if (most === 0xa1) return { name: 'macroman', by: 'degree-sign' };
  if (most === 0xf8) return { name: 'cp850', by: 'degree-sign' };
  const guess = chardet.detect(buffer);
  const known =
    guess && /^(ISO-8859|windows-125)/i.test(guess) && iconv.encodingExists(guess) ? guess.toLowerCase() : undefined;
  // Western Europe is by far the commonest legacy page; the tie-breaker only overrules it towards another 8-bit page.
  return { name: known && !/^(iso-8859-1|windows-1258)$/.test(known) ? known : 'windows-1252', by: 'statistics' };
}

export interface TextDecoding {
  write(bytes: Uint8Array): string;
  end(): string;
}

/** Raised when a file that began as UTF-8 goes on in something else: the caller starts again with a legacy page. */
export class NotUtf8Error extends Error {}

export const encodingExists = (name: string): boolean => iconv.encodingExists(name);

/** A streaming decoder. UTF-8 is strict unless it is known to be spoilt here and there; the byte-order mark is removed. */
export function decoderFor({ name, by }: Encoding): TextDecoding {
  if (by === 'mostly-utf-8') {
    const decoder = new TextDecoder('utf-8');
    return { write: (bytes) => decoder.decode(bytes, { stream: true }), end: () => decoder.decode() };
  }
  if (name === 'utf-8') {
    const decoder = new TextDecoder('utf-8', { fatal: true });
    const guarded = (decode: () => string) => {
      try {
        return decode();
      } catch {
        throw new NotUtf8Error('not UTF-8');
      }
    };
    return {
      write: (bytes) => guarded(() => decoder.decode(bytes, { stream: true })),
      end: () => guarded(() => decoder.decode()),
    };
  }
  const decoder = iconv.getDecoder(name, { stripBOM: true });
  return {
    write: (bytes) => decoder.write(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length)),
    end: () => decoder.end() ?? '',
  };
}
