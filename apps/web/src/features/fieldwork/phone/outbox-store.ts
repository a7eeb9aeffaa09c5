import type { OutboxRow, PhoneSchema } from '../../../lib/phone/database.ts';
import { isFull } from '../../../lib/phone/problem.ts';
import type { PhoneStore } from '../../../lib/phone/store.ts';
import type { Entry, NewEntry, OutboxStore, Pending, Refusal } from '../outbox/entry.ts';
import type { Content } from './content.ts';

type PhoneSaid = PhoneSchema['contents']['value'];

const nothing = () => undefined;

function abort(tx: { abort(): void }): void {
  try {
    tx.abort();
  } catch {
    // The browser has undone it already.
  }
}

/** Lists need not open what entries say: of a refusal they learn that there is one. */
const refusedSomehow: Refusal = { code: '', title: '', detail: null, remedy: '', fields: [] };

export interface PhoneOutbox extends OutboxStore<Content> {
  /** an entry with its photo, in one piece with it */
  addPhoto(entry: NewEntry<Content>, bytes: ArrayBuffer): Promise<void>;
  photo(id: string): Promise<ArrayBuffer | null>;
  /** all that a person may want to see of the entries */
  read(): Promise<Entry<Content>[]>;
}

/** The outbox on the phone: small rows in the clear, what they say sealed. Nothing is sealed within a transaction. */
export function phoneOutbox({ db, vault }: PhoneStore): PhoneOutbox {
  const everything = ['outbox', 'contents', 'photos'] as const;
  // What found no room on a full phone. Sending makes room, so it goes on all the same; in this tab it is known.
  const unwritten = new Map<string, { attempts: number; refusal: Refusal | null }>();

  const pendingOf = ({ seq = 0, refused, attempts, ...row }: OutboxRow): Pending => {
    const more = unwritten.get(row.id);
    return {
      ...row,
      seq,
      attempts: attempts + (more?.attempts ?? 0),
      refusal: more?.refusal ?? (refused ? refusedSomehow : null),
    };
  };
  const goesOn = (error: unknown, id: string, more: { attempts?: number; refusal?: Refusal }) => {
    if (!isFull(error)) throw error;
    const before = unwritten.get(id) ?? { attempts: 0, refusal: null };
    unwritten.set(id, {
      attempts: before.attempts + (more.attempts ?? 0),
      refusal: more.refusal ?? before.refusal,
    });
  };

  async function add({ content, ...entry }: NewEntry<Content>, bytes?: ArrayBuffer): Promise<void> {
    const sealed = await vault.seal(content);
    const photo = bytes && (await vault.sealBytes(bytes));
    const tx = db.transaction(everything, 'readwrite', { durability: 'strict' });
    try {
      await tx.objectStore('outbox').add({ ...entry, attempts: 0, refused: 0 });
      await tx.objectStore('contents').put({ content: sealed, refusal: null }, entry.id);
      if (photo) await tx.objectStore('photos').put(photo, entry.id);
      await tx.done;
    } catch (error) {
      // What failed halfway is undone: an entry is there whole or not at all.
      abort(tx);
      await tx.done.catch(nothing);
      throw error;
    }
  }

  // What an entry says changes only with a decision: a list that is read again opens only what is new.
  const opened = new Map<string, { as: string; entry: Entry<Content> }>();

  async function full(row: OutboxRow): Promise<Entry<Content> | null> {
    const as = `${row.key} ${row.refused}`;
    const known = opened.get(row.id);
    const refusedHere = unwritten.get(row.id)?.refusal;
    if (known?.as === as)
      return { ...known.entry, ...pendingOf(row), refusal: refusedHere ?? known.entry.refusal };
    const said = await db.get('contents', row.id);
    if (!said) return null;
    const refusal = said.refusal && (await vault.open<Refusal>(said.refusal));
    const entry = { ...pendingOf(row), content: await vault.open<Content>(said.content), refusal };
    opened.set(row.id, { as, entry });
    return { ...entry, refusal: refusedHere ?? refusal };
  }

  /** Changes a row in one transaction; null from `change` leaves it, false takes it out with all it says. */
  async function withRow(
    id: string,
    change: (row: OutboxRow) => OutboxRow | null | false,
    said?: (old: PhoneSaid) => PhoneSaid,
  ): Promise<OutboxRow | null> {
    const tx = db.transaction(everything, 'readwrite', { durability: 'strict' });
    // Where a step of it fails, that step says so.
    tx.done.catch(nothing);
    const row = await tx.objectStore('outbox').index('id').get(id);
    const next = row ? change(row) : null;
    if (row && next === false) {
      await tx.objectStore('outbox').delete(row.seq!);
      await tx.objectStore('contents').delete(id);
      await tx.objectStore('photos').delete(id);
    } else if (next) {
      await tx.objectStore('outbox').put(next);
      const old = said && (await tx.objectStore('contents').get(id));
      if (said && old) await tx.objectStore('contents').put(said(old), id);
    }
    await tx.done;
    return next === false ? row! : next;
  }

  const rowOf = (id: string) => db.getFromIndex('outbox', 'id', id);

  return {
    add: (entry) => add(entry),
    addPhoto: add,
    all: async () => (await db.getAll('outbox')).map(pendingOf),
    first: async (userId, lane) => {
      const range = IDBKeyRange.bound([userId, lane], [userId, lane, []]);
      const row = await db.getFromIndex('outbox', 'lane', range);
      return row ? pendingOf(row) : null;
    },
    claim: async (id) => {
      if (unwritten.get(id)?.refusal) return null;
      try {
        const row = await withRow(id, (old) => (old.refused ? null : { ...old, attempts: old.attempts + 1 }));
        return row && (await full(row));
      } catch (error) {
        const row = await rowOf(id);
        if (!row || row.refused) return null;
        goesOn(error, id, { attempts: 1 });
        return full(row);
      }
    },
    done: async (id) => {
      await withRow(id, () => false);
      unwritten.delete(id);
    },
    refuse: async (id, refusal) => {
      const sealed = await vault.seal(refusal);
      try {
        await withRow(
          id,
          (row) => ({ ...row, refused: 1 }),
          (old) => ({ ...old, refusal: sealed }),
        );
      } catch (error) {
        goesOn(error, id, { refusal });
      }
    },
    decide: async (id, content, key) => {
      const sealed = await vault.seal(content);
      const row = await withRow(
        id,
        (old) => {
          const { attempts, refusal } = pendingOf(old);
          return refusal || attempts === 0 ? { ...old, attempts, key, refused: 0 } : null;
        },
        () => ({ content: sealed, refusal: null }),
      );
      if (row) unwritten.delete(id);
      return row !== null;
    },
    withdraw: async (id) => {
      const row = await withRow(id, (old) => {
        const { attempts, refusal } = pendingOf(old);
        return attempts === 0 || refusal ? false : null;
      });
      if (row) unwritten.delete(id);
      return row !== null;
    },
    photo: async (id) => {
      const sealed = await db.get('photos', id);
      return sealed ? vault.openBytes(sealed) : null;
    },
    read: async () => {
      const rows = await db.getAll('outbox');
      return (await Promise.all(rows.map(full))).filter((entry) => entry !== null);
    },
  };
}
