import type { Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import type { Phone } from '../phone/phone.ts';

function base64(bytes: ArrayBuffer): string {
  let text = '';
  const view = new Uint8Array(bytes);
  for (let i = 0; i < view.length; i += 0x8000) text += String.fromCharCode(...view.subarray(i, i + 0x8000));
  return btoa(text);
}

/**
 * Everything that is not sent, readable and whole, photos as base64: for the day when the phone cannot send it. Put
 * together from pieces, since a day's photos are too much for one text on a phone.
 */
export async function unsentFile(
  phone: Pick<Phone, 'photo' | 'me'>,
  entries: readonly Entry<Content>[],
): Promise<Blob> {
  const head = {
    what: 'Entries of a rater that had not been sent',
    rater: { id: phone.me.id, name: phone.me.name },
    exportedAt: new Date().toISOString(),
  };
  const pieces: (string | Blob)[] = [`${JSON.stringify(head).slice(0, -1)},"entries":[`];
  for (const [i, { id, madeAt, content, refusal }] of entries.entries()) {
    // One photo that cannot be opened keeps nothing else back.
    const photo = content.kind === 'photo' ? await phone.photo(id).catch(() => null) : null;
    const entry = { id, madeAt, ...content, refusal, ...(photo ? { photoBase64: base64(photo) } : {}) };
    pieces.push(i > 0 ? ',\n' : '\n', new Blob([JSON.stringify(entry)]));
  }
  return new Blob([...pieces, '\n]}'], { type: 'application/json' });
}

/** Hands a file to the browser's downloads. */
export function download(file: Blob, name: string): void {
  const url = URL.createObjectURL(file);
  const link = Object.assign(document.createElement('a'), { href: url, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
