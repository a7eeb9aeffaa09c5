import { createHash, randomBytes } from 'node:crypto';

/** A secret for an address or a cookie: 256 random bits. */
export const newToken = (): string => randomBytes(32).toString('base64url');

/** What is stored instead of a token. A plain hash is enough for something that nobody could guess. */
export const hashToken = (token: string): string => createHash('sha256').update(token).digest('hex');
