import type { Batch } from '@countercheck/contracts';
import { HouseName, Tag } from '../../components/marks/index.ts';
import { Panel } from '../../components/page/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { TakeResult } from './take-result.tsx';
import { houseWords, setWords, toneOf } from './words.ts';
import './batches.css';

type Set = Batch['setList'][number];
type House = Set['houses'][number];

const kindOf = ({ chosen, result }: House) => result ?? (chosen ? 'waits' : 'spoken');

const columnsOf = (set: Set, batchId: string, may: boolean): Column<House>[] => [
  {
    title: 'House',
    head: true,
    cell: ({ house }) => <HouseName house={house} to={`/houses/${house.id}`} />,
  },
  { title: 'What it is', cell: (each) => houseWords(each, set.state) },
  {
    title: 'Next',
    cell: (each) =>
      may && each.chosen && (each.result === null || each.result === 'failed') ? (
        <TakeResult batchId={batchId} house={each.house} again={each.result === 'failed'} />
      ) : (
        '–'
      ),
  },
];

/** A set with its history drawn: the houses in testing order, and the same in words beside it. */
export function SetPanel({ batchId, set, may }: { batchId: string; set: Set; may: boolean }) {
  const title = `Set ${set.number}`;
  return (
    <Panel title={title} actions={<Tag tone={toneOf(set.state)}>{setWords[set.state]}</Tag>}>
      <div className="stack">
        <ol className="set-drawing" aria-label={`${title}, houses in the order of testing`}>
          {set.houses.map((each, at) => (
            <li key={each.house.id} className="set-house" data-kind={kindOf(each)}>
              <strong>
                {at + 1}. lot {each.house.lot}
              </strong>
              <span>{houseWords(each, set.state)}</span>
            </li>
          ))}
        </ol>
        <div className="columns">
          <RowsTable
            caption={`${title}: houses`}
            columns={columnsOf(set, batchId, may)}
            rows={set.houses}
            keyOf={({ house }) => house.id}
          />
          <div>
            <h3>History</h3>
            <ol>
              {set.history.map((words, at) => (
                <li key={at}>{words}</li>
              ))}
            </ol>
            <p className="soft small">
              The order follows from the ids and this seed: <span className="code">{set.seed}</span>
            </p>
          </div>
        </div>
      </div>
    </Panel>
  );
}
