import type { FailedItem } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Caution, Tag } from '../../components/marks/index.ts';
import { FactList } from '../../components/page/index.ts';
import { useFailureIn } from '../../lib/units/failure-in.ts';
import { itemStateWords, tradeWords } from './words.ts';

const toneOf = { open: 'bad', corrected: 'brass', reinspection_asked: 'brass', closed: 'good' } as const;

export function ItemState({ state }: { state: FailedItem['state'] }) {
  return <Tag tone={toneOf[state]}>{itemStateWords[state]}</Tag>;
}

/** By how much it failed, what would do, and whose work it usually is. */
export function FailureFacts({ item }: { item: FailedItem }) {
  const { reason, needed } = useFailureIn(item);
  return (
    <>
      <p>{reason}</p>
      <FactList
        facts={[
          ['Would pass with', needed],
          ['Trade', tradeWords(item.trade)],
          ...(item.timesFailed > 1 ? [['Times failed', item.timesFailed] as [string, number]] : []),
        ]}
      />
      <p>
        <strong>Usual correction:</strong> {item.correction}
      </p>
      {item.cautions.map((caution) => (
        <Caution key={caution}>{caution}</Caution>
      ))}
    </>
  );
}

/** A failed item in the list of its house. */
export function FailedItemCard({ item }: { item: FailedItem }) {
  const { reason } = useFailureIn(item);
  return (
    <li className="stack card">
      <div className="card-head">
        <h3>
          <Link to={`/my-failed-items/${item.id}`}>
            {item.title}, {item.subjectLabel}
          </Link>
        </h3>
        <ItemState state={item.state} />
      </div>
      {item.state === 'closed' ? <p className="soft">{reason}</p> : <FailureFacts item={item} />}
    </li>
  );
}
