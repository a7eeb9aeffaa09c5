import { batches, type Batch } from '@countercheck/contracts';
import { Caution, Tag } from '../../components/marks/index.ts';
import { FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { CandidatesPanel } from './candidates-panel.tsx';
import { RulesTable } from './rules-panel.tsx';
import { SetPanel } from './set-panel.tsx';
import { TakeResult } from './take-result.tsx';
import { houseWords, phaseWords, toneOf } from './words.ts';

export default function BatchPage() {
  const id = useParam('id');
  const query = useRoute(batches.show, { params: { id } });
  return <Asked query={query}>{(batch) => <BatchSheet batch={batch} />}</Asked>;
}

type Single = Batch['singles'][number];
type Happened = Batch['events'][number];

const singleColumns = (id: string, may: boolean): Column<Single>[] => [
  { title: 'House', head: true, cell: ({ house }) => `${house.address}, lot ${house.lot}` },
  {
    title: 'Result',
    cell: ({ result }) => (
      <Tag tone={result === 'failed' ? 'bad' : 'good'}>{houseWords({ chosen: true, result }, '')}</Tag>
    ),
  },
  {
    title: 'Next',
    cell: ({ house, result }) =>
      result === 'failed' && may ? <TakeResult batchId={id} house={house} again /> : '–',
  },
];
const eventColumns: Column<Happened>[] = [
  { title: 'No.', head: true, cell: (row) => row.sequence },
  { title: 'What', cell: (row) => row.words },
  { title: 'When', cell: (row) => <Moment at={row.at} /> },
  { title: 'By', cell: (row) => row.by },
];

function BatchSheet({ batch }: { batch: Batch }) {
  const may = useRole('quality');
  const { needed, phase, inRow, testedInPhase } = batch;
  return (
    <Page
      title={batch.title}
      back={{ to: '/batches', label: 'Batches' }}
      lead={`${batch.builder}, ${batch.community}${batch.plan ? `, ${batch.plan}` : ''}; ${batch.trades}`}
    >
      <Panel title="Where it stands">
        <div className="stack">
          <FactList
            facts={[
              ['Phase', <Tag tone={toneOf(phase)}>{phaseWords[phase]}</Tag>],
              ...(phase === 'sampling'
                ? []
                : ([
                    ['Passes in a row', `${inRow} of ${needed.inRow}`],
                    ...(needed.tested > 0 ? [['Tested first', `${testedInPhase} of ${needed.tested}`]] : []),
                  ] as [string, string][])),
              ['Tested', `${batch.tested} of ${batch.houses} houses`],
              ['Sets', `${batch.sets}, ${batch.setsFailed} of them failed`],
              ['Rules', batch.rules],
              ['Opened', <Moment at={batch.openedAt} />],
              ['By', batch.openedBy],
            ]}
          />
          {batch.whyNoSet && <Caution title="No set can be opened yet">{batch.whyNoSet}</Caution>}
        </div>
      </Panel>
      {batch.setList.toReversed().map((set) => (
        <SetPanel key={set.number} batchId={batch.id} set={set} may={may} />
      ))}
      <Panel title="Tested on their own" flush>
        {batch.singles.length === 0 ? (
          <Empty title="No house was tested on its own yet" />
        ) : (
          <RowsTable
            caption="Houses tested on their own"
            columns={singleColumns(batch.id, may)}
            rows={batch.singles}
            keyOf={({ house }) => house.id}
          />
        )}
      </Panel>
      <CandidatesPanel batch={batch} may={may} />
      <Panel title="What happened" flush>
        {batch.events.length === 0 ? (
          <Empty title="Nothing yet" />
        ) : (
          <RowsTable
            caption="What happened in this batch"
            columns={eventColumns}
            rows={batch.events}
            keyOf={({ sequence }) => String(sequence)}
          />
        )}
      </Panel>
      <Panel title={`Rules: ${batch.ruleSet.title}`} flush>
        <RulesTable rules={batch.ruleSet} />
      </Panel>
    </Page>
  );
}
