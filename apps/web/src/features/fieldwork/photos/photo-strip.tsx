import { Button, FileButton, TextInput } from '@mantine/core';
import { IconCamera } from '@tabler/icons-react';
import { service, type Photo } from '@countercheck/contracts';
import { useRef, useState } from 'react';
import { Problem } from '../../../components/states/index.ts';
import { urlOf } from '../../../lib/client.ts';
import { usePhotoHere, useSendPhoto, type NewPhoto } from '../data/photos.ts';
import { scalePhoto } from '../../../lib/photos/scale-photo.ts';

interface Props {
  visitId: string;
  houseId: string;
  item: string;
  subjectId: string;
  /** what the photos show, for people who do not see them */
  name: string;
  photos: readonly Photo[];
  mayAdd: boolean;
}

function OnePhoto({ photo, name }: { photo: Photo; name: string }) {
  const here = usePhotoHere(photo.id);
  const args = { params: { id: photo.id } };
  return (
    <li>
      <a href={here?.waits ? here.url : urlOf(service.photo, args)} target="_blank" rel="noreferrer">
        <img
          src={here?.url ?? urlOf(service.thumbnail, args)}
          alt={photo.caption ?? `Photo of ${name}`}
          loading="lazy"
        />
      </a>
      {photo.caption && <span className="small">{photo.caption}</span>}
      {here?.waits && <span className="small soft">On this phone</span>}
    </li>
  );
}

/** The photos of an item, and taking another one. */
export function PhotoStrip({ visitId, houseId, item, subjectId, name, photos, mayAdd }: Props) {
  const [caption, setCaption] = useState('');
  const [waiting, setWaiting] = useState<{ photo: NewPhoto; file: Blob; error: unknown } | null>(null);
  const [busy, setBusy] = useState(false);
  const reset = useRef<() => void>(null);
  const sendPhoto = useSendPhoto(visitId, houseId, name);

  async function send(photo: NewPhoto, file: Blob) {
    setBusy(true);
    try {
      await sendPhoto(photo, file);
      setWaiting(null);
      setCaption('');
    } catch (error) {
      setWaiting({ photo, file, error });
    } finally {
      setBusy(false);
    }
  }

  async function add(file: File | null) {
    // A camera may give every photo the same name: the next one counts as another file all the same.
    reset.current?.();
    if (!file) return;
    const takenAt = new Date(file.lastModified || Date.now()).toISOString();
    const photo = {
      id: crypto.randomUUID(),
      item,
      subjectId,
      takenAt,
      ...(caption.trim() ? { caption: caption.trim() } : {}),
    };
    setBusy(true);
    // Where there is no memory to scale it, it goes as it is.
    await send(photo, await scalePhoto(file).catch(() => file));
  }

  if (photos.length === 0 && !mayAdd) return null;
  return (
    <section className="stack photos" aria-label={`Photos: ${name}`}>
      <h3>Photos</h3>
      {photos.length > 0 && (
        <ul className="photo-strip">
          {photos.map((photo) => (
            <OnePhoto key={photo.id} photo={photo} name={name} />
          ))}
        </ul>
      )}
      {mayAdd && (
        <div className="photo-add">
          <TextInput
            size="md"
            label="What the photo shows"
            description="May be left out."
            maxLength={300}
            value={caption}
            onChange={(event) => setCaption(event.currentTarget.value)}
          />
          <FileButton
            resetRef={reset}
            accept="image/jpeg,image/png,image/webp"
            capture="environment"
            onChange={(file) => void add(file)}
          >
            {(props) => (
              <Button
                {...props}
                size="lg"
                variant="default"
                loading={busy}
                leftSection={<IconCamera size={20} aria-hidden="true" />}
              >
                Add a photo
              </Button>
            )}
          </FileButton>
        </div>
      )}
      {waiting && <Problem error={waiting.error} retry={() => void send(waiting.photo, waiting.file)} />}
    </section>
  );
}
