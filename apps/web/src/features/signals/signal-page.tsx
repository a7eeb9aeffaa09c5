import { signals, type SignalFinding } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Tag } from '../../components/marks/index.ts';
import { DateText, FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { Decision } from './decision.tsx';
import { EvidenceView } from './evidence.tsx';
import './signals.css';
import {
  chanceWords,
  comparedWords,
  innocentWords,
  lookedWords,
  nextWords,
  signalWords,
  stateWords,
} from './words.ts';

export default function SignalPage() {
  const id = useParam('id');
  const query = useRoute(signals.finding, { params: { id } });
  return <Asked query={query}>{(finding) => <Sheet finding={finding} />}</Asked>;
}

function Sheet({ finding }: { finding: SignalFinding }) {
  const { signal, sentence, rater, looked, q, p, state, reason, decidedBy, decidedAt, behind, earlier } =
    finding;
  return (
    <Page
      title={signalWords[signal]}
      back={{ to: '/signals', label: 'Signals' }}
      lead={sentence}
      actions={<Decision finding={finding} />}
    >
      <Panel title="Finding">
        <FactList
          facts={[
            ['State', <Tag tone={state === 'open' ? 'brass' : 'plain'}>{stateWords[state]}</Tag>],
            ['Readings by', rater.name],
            [lookedWords[signal], looked],
            ['Chance of such readings when nothing is wrong', chanceWords(p)],
            ['Allowing for every test of the look', chanceWords(q)],
            [
              'Decided',
              decidedAt === null ? (
                '–'
              ) : (
                <>
                  <Moment at={decidedAt} />, {decidedBy}
                </>
              ),
            ],
            ['Reason', reason ?? '–'],
          ]}
        />
        <p>Compared: {comparedWords[signal]}</p>
        <p className="soft small">
          A look makes many tests, and one in so many is unusual by chance alone; the second figure allows for
          that. At most 5 % of what is told of in a look is expected to be nothing.
        </p>
        <p>
          It says where to look, and nothing about a person. {innocentWords[signal]} {nextWords[signal]}
        </p>
      </Panel>
      <Panel title="What the test looked at">
        <EvidenceView evidence={finding.evidence} />
      </Panel>
      <Panel title="Houses behind it">
        <RowsTable
          caption="Houses behind it"
          rows={behind}
          keyOf={(house) => house.id}
          columns={[
            {
              title: 'House',
              head: true,
              cell: (house) => <Link to={`/houses/${house.id}`}>{house.address}</Link>,
            },
            { title: 'Lot', cell: (house) => house.lot },
            { title: 'Community', cell: (house) => house.community },
            {
              title: 'Tested',
              cell: (house) => (house.testedOn ? <DateText date={house.testedOn} /> : '–'),
            },
          ]}
        />
      </Panel>
      {earlier.length > 0 && (
        <Panel title="The same signal before">
          <RowsTable
            caption="The same signal before"
            rows={earlier}
            keyOf={(row) => row.id}
            columns={[
              {
                title: 'Found',
                head: true,
                cell: (row) => (
                  <Link to={`/signals/${row.id}`}>
                    <Moment at={row.createdAt} />
                  </Link>
                ),
              },
              { title: 'What became of it', cell: (row) => stateWords[row.state] },
              { title: 'Reason', cell: (row) => row.reason ?? '–' },
            ]}
          />
        </Panel>
      )}
    </Page>
  );
}
