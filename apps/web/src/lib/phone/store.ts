import { openPhoneDatabase, type PhoneDatabase } from './database.ts';
import { openVault, type Vault } from './vault.ts';

export interface PhoneStore {
  db: PhoneDatabase;
  vault: Vault;
  put(name: string, value: unknown): Promise<void>;
  get<T>(name: string): Promise<T | null>;
}

let opened: Promise<PhoneStore> | null = null;

async function open(): Promise<PhoneStore> {
  const db = await openPhoneDatabase();
  const vault = await openVault(db);
  return {
    db,
    vault,
    put: async (name, value) => void (await db.put('kept', await vault.seal(value), name)),
    get: async <T>(name: string) => {
      const sealed = await db.get('kept', name);
      return sealed ? vault.open<T>(sealed).catch(() => null) : null;
    },
  };
}

/** The store of this browser, opened once a page; rejects where there is none, as in some private windows. */
export function phoneStore(): Promise<PhoneStore> {
  opened ??= open().catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return opened;
}

/** Throws all of it away, with the key: what anybody copied before cannot be read any more. */
export async function clearPhone(): Promise<void> {
  const { db } = await phoneStore();
  const stores = ['keys', 'kept', 'outbox', 'contents', 'photos'] as const;
  const tx = db.transaction(stores, 'readwrite');
  await Promise.all(stores.map((name) => tx.objectStore(name).clear()));
  await tx.done;
  db.close();
  opened = null;
}
