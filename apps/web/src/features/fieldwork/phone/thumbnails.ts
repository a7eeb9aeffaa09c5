import type { PhoneStore } from '../../../lib/phone/store.ts';

const prefix = 'small:';
const nameOf = (day: string, id: string) => `${prefix}${day}:${id}`;

/**
 * Small versions of the day's photos, sealed like everything else: what was photographed can be looked at in a
 * basement after the photo itself was sent. They go with the end of the day, and with signing out.
 */
export class Thumbnails {
  constructor(private readonly store: PhoneStore) {}

  private async names(): Promise<string[]> {
    const keys = await this.store.db.getAllKeys('photos');
    return keys.filter((key) => key.startsWith(prefix));
  }

  async keep(day: string, id: string, bytes: ArrayBuffer): Promise<void> {
    await this.store.db.put('photos', await this.store.vault.sealBytes(bytes), nameOf(day, id));
  }

  async read(id: string): Promise<ArrayBuffer | null> {
    const name = (await this.names()).find((each) => each.endsWith(`:${id}`));
    const sealed = name && (await this.store.db.get('photos', name));
    return sealed ? this.store.vault.openBytes(sealed) : null;
  }

  async drop(id: string): Promise<void> {
    for (const name of await this.names())
      if (name.endsWith(`:${id}`)) await this.store.db.delete('photos', name);
  }

  /** Throws away those of other days. */
  async sweep(today: string): Promise<void> {
    for (const name of await this.names())
      if (!name.startsWith(nameOf(today, ''))) await this.store.db.delete('photos', name);
  }
}
