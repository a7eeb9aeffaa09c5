import { service, type Photo } from '@countercheck/contracts';
import { Moment } from '../../components/page/index.ts';
import { urlOf } from '../../lib/client.ts';

/** Photos beside what they show, each opening in full. */
export function PhotosBeside({ photos, name }: { photos: readonly Photo[]; name: string }) {
  if (photos.length === 0) return null;
  return (
    <ul className="beside-photos" aria-label={`Photos: ${name}`}>
      {photos.map((photo) => (
        <li key={photo.id}>
          <a href={urlOf(service.photo, { params: { id: photo.id } })} target="_blank" rel="noreferrer">
            <img
              src={urlOf(service.thumbnail, { params: { id: photo.id } })}
              alt={photo.caption ?? `Photo: ${name}`}
              loading="lazy"
            />
          </a>
          <span className="small">
            {photo.caption && `${photo.caption}, `}
            {photo.addedByName}, <Moment at={photo.takenAt ?? photo.addedAt} />
          </span>
        </li>
      ))}
    </ul>
  );
}
