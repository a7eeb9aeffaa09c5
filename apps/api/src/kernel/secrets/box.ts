import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto';

const algorithm = 'aes-256-gcm';
const bytes = (part: string | undefined) => Buffer.from(part ?? '', 'base64url');

export interface SecretBox {
  seal(plain: string, owner: string): string;
  open(sealed: string, owner: string): string;
}

/**
 * Encrypts what must be readable again by the service but not by whoever gets hold of a backup. The owner
 * is authenticated with it, so that one user's secret cannot be put into another user's row.
 */
export function secretBox(secretKey: string, purpose: string): SecretBox {
  const key = Buffer.from(hkdfSync('sha256', secretKey, '', `countercheck ${purpose}`, 32));
  return {
    seal(plain, owner) {
      const iv = randomBytes(12);
      const cipher = createCipheriv(algorithm, key, iv).setAAD(Buffer.from(owner));
      const text = Buffer.concat([cipher.update(plain, 'utf8'), cipher.final()]);
      return ['v1', ...[iv, cipher.getAuthTag(), text].map((part) => part.toString('base64url'))].join('.');
    },
    open(sealed, owner) {
      const [version, iv, tag, text] = sealed.split('.');
      if (version !== 'v1') throw new Error('A secret of an unknown form');
      const decipher = createDecipheriv(algorithm, key, bytes(iv), { authTagLength: 16 })
        .setAAD(Buffer.from(owner))
        .setAuthTag(bytes(tag));
      return Buffer.concat([decipher.update(bytes(text)), decipher.final()]).toString('utf8');
    },
  };
}
