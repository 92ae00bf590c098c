import { open } from 'node:fs/promises';
import type { FileOfBytes } from './read-table.ts';

const PIECE_BYTES = 65_536;

/** The bytes of a file on the disk, as often as they are asked for, through one piece of memory that is filled again and again. */
export function fileBytes(path: string): FileOfBytes {
  return async function* () {
    const file = await open(path);
    const piece = Buffer.allocUnsafeSlow(PIECE_BYTES);
    try {
      for (;;) {
        const { bytesRead } = await file.read(piece, 0, PIECE_BYTES, null);
        if (bytesRead === 0) return;
        yield piece.subarray(0, bytesRead);
      }
    } finally {
      await file.close();
    }
  };
}
