import type { PhoneStore } from '../../../lib/phone/store.ts';

const prefix = 'draft:';

/**
 * Half-filled forms, sealed like everything else on the phone. Read once; every change is there at once for this tab
 * and is written after those before it.
 */
export class Drafts implements Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'length' | 'key'> {
  private readonly kept = new Map<string, string>();
  private writing: Promise<unknown> = Promise.resolve();

  constructor(private readonly store: PhoneStore) {}

  async load(): Promise<void> {
    const names = (await this.store.db.getAllKeys('kept')).filter((name) => name.startsWith(prefix));
    await Promise.all(
      names.map(async (name) => {
        const text = await this.store.get<string>(name);
        if (text !== null) this.kept.set(name.slice(prefix.length), text);
      }),
    );
  }

  get length(): number {
    return this.kept.size;
  }
  key(index: number): string | null {
    return [...this.kept.keys()][index] ?? null;
  }
  getItem(name: string): string | null {
    return this.kept.get(name) ?? null;
  }
  setItem(name: string, text: string): void {
    this.kept.set(name, text);
    this.write(() => this.store.put(prefix + name, text));
  }
  removeItem(name: string): void {
    this.kept.delete(name);
    this.write(() => this.store.db.delete('kept', prefix + name));
  }

  private write(work: () => Promise<unknown>): void {
    // A keystroke that could not be kept is tried again with the next one.
    this.writing = this.writing.then(work).catch(() => undefined);
  }
  /** resolves when all that was typed so far is on the phone */
  written = (): Promise<unknown> => this.writing;
}
