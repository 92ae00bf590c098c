import { createHash, randomBytes } from 'node:crypto';

/** A secret of 256 random bits, as it is handed out; the database keeps only its hash. */
export const newToken = (): string => randomBytes(32).toString('base64url');

export const tokenHash = (token: string): string => createHash('sha256').update(token).digest('hex');
