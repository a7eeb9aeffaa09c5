import type { PhoneStore } from '../../../lib/phone/store.ts';

const prefix = 'draft:';

/**
 * Half-filled forms, sealed like everything else on the phone. Read once; every change is there at once for this tab
 * and is written after those before it.
 */
export class Drafts implements Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'length' | 'key'> {
  private readonly kept = new Map<string, string>();
  private writing: Promise<unknown> = Promise.resolve();
  /** those whose newest text found no room on the phone */
  private readonly unwritten = new Set<string>();

  constructor(
    private readonly store: PhoneStore,
    /** told when the number of forms that are not on the phone has changed */
    private readonly onUnwritten: (count: number) => void = () => undefined,
  ) {}

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
    this.write(name);
  }
  removeItem(name: string): void {
    this.kept.delete(name);
    this.write(name);
  }

  private write(name: string): void {
    this.writing = this.writing.then(async () => {
      const text = this.kept.get(name);
      const before = this.unwritten.size;
      try {
        await (text === undefined
          ? this.store.db.delete('kept', prefix + name)
          : this.store.put(prefix + name, text));
        this.unwritten.delete(name);
      } catch {
        this.unwritten.add(name);
      }
      if (this.unwritten.size !== before) this.onUnwritten(this.unwritten.size);
    });
  }
  /** There may be room again: writes what found none. */
  tryAgain(): void {
    for (const name of this.unwritten) this.write(name);
  }
  /** resolves when all that was typed so far is on the phone */
  written = (): Promise<unknown> => this.writing;
}
