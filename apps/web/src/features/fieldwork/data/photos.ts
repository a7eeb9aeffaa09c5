import { fieldwork } from '@countercheck/contracts';
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { upload } from '../../../lib/client.ts';
import { smallPhoto } from '../../../lib/photos/scale-photo.ts';
import { keyOf } from '../../../lib/query.ts';
import { usePhone } from '../phone/use-phone.ts';

export interface NewPhoto {
  id: string;
  item?: string;
  subjectId?: string;
  caption?: string;
  takenAt: string;
}

async function sha256(bytes: ArrayBuffer): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (each) => each.toString(16).padStart(2, '0')).join('');
}

/** Keeps a photo on the phone until it has arrived; without a phone to keep it, sends it at once. */
export function useSendPhoto(visitId: string, houseId: string, place: string) {
  const { phone } = usePhone();
  const client = useQueryClient();
  return async (photo: NewPhoto, file: Blob) => {
    if (!phone) {
      await upload(fieldwork.addPhoto, { params: { id: visitId }, body: photo }, file);
      await client.invalidateQueries({ queryKey: keyOf(fieldwork.sheet) });
      return;
    }
    const bytes = await file.arrayBuffer();
    const whole = { ...photo, size: bytes.byteLength, sha256: await sha256(bytes) };
    await phone.add({ kind: 'photo', visitId, place, photo: whole }, houseId, photo.id, bytes);
    // After it, so that the last room on a phone is the photo's own.
    const small = await smallPhoto(file).catch(() => null);
    if (small) await phone.keepSmall(photo.id, await small.arrayBuffer());
  };
}

/** The address of a photo on this phone: all of it while it waits, the small one for the rest of the day. */
export function usePhotoHere(id: string): { url: string; waits: boolean } | null {
  const { phone, state } = usePhone();
  const waits = state.entries.some((entry) => entry.id === id);
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    if (!phone || !state.ready) return;
    let made: string | null = null;
    let gone = false;
    void (waits ? phone.photo(id) : phone.small(id)).then((bytes) => {
      if (!bytes || gone) return;
      made = URL.createObjectURL(new Blob([bytes]));
      setUrl(made);
    });
    return () => {
      gone = true;
      setUrl(null);
      if (made) URL.revokeObjectURL(made);
    };
  }, [phone, state.ready, waits, id]);
  return url === null ? null : { url, waits };
}
