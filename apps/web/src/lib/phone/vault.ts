import type { PhoneDatabase } from './database.ts';

/** What lies in the store: nothing of it can be read without the key. */
export interface Sealed {
  iv: Uint8Array<ArrayBuffer>;
  data: ArrayBuffer;
}

const keyName = 'phone';
const algorithm = 'AES-GCM';

/** The key of this browser, made with its first use. It can be used and thrown away, not read. */
async function keyOf(db: PhoneDatabase): Promise<CryptoKey> {
  const known = await db.get('keys', keyName);
  if (known) return known;
  const made = await crypto.subtle.generateKey({ name: algorithm, length: 256 }, false, [
    'encrypt',
    'decrypt',
  ]);
  // Of two tabs that begin at once the first one's key stands.
  const tx = db.transaction('keys', 'readwrite');
  const kept = await tx.store.get(keyName);
  if (!kept) await tx.store.put(made, keyName);
  await tx.done;
  return kept ?? made;
}

export interface Vault {
  seal(value: unknown): Promise<Sealed>;
  sealBytes(bytes: ArrayBuffer): Promise<Sealed>;
  /** rejects when it was sealed with another key or was changed */
  open<T>(sealed: Sealed): Promise<T>;
  openBytes(sealed: Sealed): Promise<ArrayBuffer>;
}

/** Seals what is kept on the phone with AES-GCM (NIST SP 800-38D), a fresh nonce of 96 bits each time. */
export async function openVault(db: PhoneDatabase): Promise<Vault> {
  const key = await keyOf(db);
  const sealBytes = async (bytes: ArrayBuffer) => {
    const iv = crypto.getRandomValues(new Uint8Array(12));
    return { iv, data: await crypto.subtle.encrypt({ name: algorithm, iv }, key, bytes) };
  };
  const openBytes = ({ iv, data }: Sealed) => crypto.subtle.decrypt({ name: algorithm, iv }, key, data);
  return {
    sealBytes,
    openBytes,
    seal: (value) => sealBytes(new TextEncoder().encode(JSON.stringify(value)).buffer),
    open: async <T>(sealed: Sealed) => JSON.parse(new TextDecoder().decode(await openBytes(sealed))) as T,
  };
}
