import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Sealed } from './vault.ts';

/** An entry of the outbox without what it says: ids and counts, which tell nobody anything. */
export interface OutboxRow {
  seq?: number;
  id: string;
  key: string;
  userId: string;
  lane: string;
  madeAt: string;
  attempts: number;
  refused: 0 | 1;
}

export interface PhoneSchema extends DBSchema {
  /** the key that cannot be taken out of this browser */
  keys: { key: string; value: CryptoKey };
  /** whoever was signed in, sheets, rule sets, instruments, half-filled forms */
  kept: { key: string; value: Sealed };
  outbox: {
    key: number;
    value: OutboxRow;
    indexes: { id: string; lane: [string, string, number] };
  };
  /** what entries say, and why one was refused, by the entry's id */
  contents: { key: string; value: { content: Sealed; refusal: Sealed | null } };
  /** the photos of entries, and of those sent their small versions */
  photos: { key: string; value: Sealed };
}
export type PhoneDatabase = IDBPDatabase<PhoneSchema>;

/** The browser's own store for work without a connection. */
export function openPhoneDatabase(name = 'countercheck'): Promise<PhoneDatabase> {
  return openDB<PhoneSchema>(name, 1, {
    upgrade(db) {
      db.createObjectStore('keys');
      db.createObjectStore('kept');
      const outbox = db.createObjectStore('outbox', { keyPath: 'seq', autoIncrement: true });
      outbox.createIndex('id', 'id', { unique: true });
      outbox.createIndex('lane', ['userId', 'lane', 'seq']);
      db.createObjectStore('contents');
      db.createObjectStore('photos');
    },
    // An older page lets go, so that a newer one can open what it needs.
    blocking: (_now, _next, event) => (event.target as IDBDatabase | null)?.close(),
  });
}
