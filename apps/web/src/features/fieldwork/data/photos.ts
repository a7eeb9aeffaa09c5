import { fieldwork } from '@countercheck/contracts';
import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { upload } from '../../../lib/client.ts';
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
  };
}

/** The address of a photo that is still on this phone; null once it is not. */
export function usePhotoHere(id: string): string | null {
  const { phone, state } = usePhone();
  const waits = state.entries.some((entry) => entry.id === id);
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    if (!phone || !waits) return;
    let made: string | null = null;
    let gone = false;
    void phone.photo(id).then((bytes) => {
      if (!bytes || gone) return;
      made = URL.createObjectURL(new Blob([bytes]));
      setUrl(made);
    });
    return () => {
      gone = true;
      setUrl(null);
      if (made) URL.revokeObjectURL(made);
    };
  }, [phone, waits, id]);
  return url;
}
