import { failedItems, service, type FailedItem } from '@countercheck/contracts';
import { Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { urlOf } from '../../lib/client.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { CorrectionForm } from './correction-form.tsx';
import { FailureFacts, ItemState } from './failed-item-card.tsx';
import { entryWords } from './words.ts';
import './builder-desk.css';

/** One failed item: what it takes, what was done about it, and recording the correction. */
export default function FailedItemPage() {
  const query = useRoute(failedItems.show, { params: { id: useParam('id') } });
  return <Asked query={query}>{(item) => <Item item={item} />}</Asked>;
}

function Item({ item }: { item: FailedItem }) {
  return (
    <Page
      width="reading"
      title={`${item.title}, ${item.subjectLabel}`}
      back={{ to: `/my-houses/${item.house.id}`, label: item.house.address }}
      lead={<ItemState state={item.state} />}
    >
      <Panel title="What failed">
        <div className="stack">
          <FailureFacts item={item} />
        </div>
      </Panel>
      {item.state !== 'closed' && <CorrectionForm item={item} />}
      {item.photos.length > 0 && (
        <Panel title="Photos">
          <ul className="photo-row">
            {item.photos.map((photo) => (
              <li key={photo.id}>
                <a href={urlOf(service.photo, { params: { id: photo.id } })} target="_blank" rel="noreferrer">
                  <img
                    src={urlOf(service.thumbnail, { params: { id: photo.id } })}
                    alt={photo.caption ?? `Photo: ${item.title}, ${item.subjectLabel}`}
                    loading="lazy"
                  />
                </a>
                {photo.caption && <span className="small">{photo.caption}</span>}
              </li>
            ))}
          </ul>
        </Panel>
      )}
      <Panel title="History">
        <ol className="history">
          {item.entries.map((entry) => (
            <li key={entry.id}>
              <strong>{entryWords(entry.kind)}</strong>, {entry.byName}, <Moment at={entry.at} />
              <p>{entry.text}</p>
            </li>
          ))}
        </ol>
      </Panel>
    </Page>
  );
}
