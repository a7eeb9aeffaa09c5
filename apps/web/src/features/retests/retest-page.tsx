import { Button } from '@mantine/core';
import { retests, type Comparison, type Retest } from '@countercheck/contracts';
import { testOutlines, type QuantityKind } from '@countercheck/measurement';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { ConfirmWords, said } from '../../components/feedback/index.ts';
import { Quantity } from '../../components/fields/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { retestStateWords, sourceWords } from '../../lib/words/quality.ts';
import { OutcomeTag } from './outcome-tag.tsx';

type Side = Comparison['first'];

function Measured({ side, quantity }: { side: Side; quantity: QuantityKind }) {
  return (
    <>
      <Quantity kind={quantity} value={side.value} />
      {side.expanded !== null && (
        <>
          {' '}
          ± <Quantity kind={quantity} value={side.expanded} />
        </>
      )}
      <span className="small soft">
        <br />
        {side.takenBy}, <Moment at={side.takenAt} />
        {side.instrument && <>, {side.instrument}</>}
      </span>
    </>
  );
}

const columns: Column<Comparison>[] = [
  {
    title: 'What',
    head: true,
    cell: (row) => (
      <>
        {row.label}
        <span className="small soft">
          <br />
          {testOutlines[row.test].title}, {row.subjectLabel}
        </span>
      </>
    ),
  },
  {
    title: 'First',
    figure: true,
    cell: (row) => <Measured side={row.first} quantity={row.quantity as QuantityKind} />,
  },
  {
    title: 'Second',
    figure: true,
    cell: (row) => <Measured side={row.second} quantity={row.quantity as QuantityKind} />,
  },
  {
    title: 'Difference',
    figure: true,
    cell: (row) => <Quantity kind={row.quantity as QuantityKind} value={row.difference} />,
  },
  {
    title: 'Allowed',
    figure: true,
    cell: (row) => (
      <>
        ± <Quantity kind={row.quantity as QuantityKind} value={row.allowed} />
        <span className="small soft">
          <br />
          tolerance <Quantity kind={row.quantity as QuantityKind} value={row.tolerance} />
        </span>
      </>
    ),
  },
  {
    title: 'Agree',
    cell: (row) => <Tag tone={row.agrees ? 'good' : 'bad'}>{row.agrees ? 'Yes' : 'No'}</Tag>,
  },
];

/** A re-test with both measurements beside each other. */
export default function RetestPage() {
  const query = useRoute(retests.show, { params: { id: useParam('id') } });
  return <Asked query={query}>{(found) => <Shown retest={found} />}</Asked>;
}

function Shown({ retest }: { retest: Retest }) {
  const { house, visit, comparisons, notRepeated, state } = retest;
  const [asking, setAsking] = useState(false);
  const withdraw = useAction(retests.withdraw, { invalidates: [retests.show, retests.list] });
  return (
    <Page
      title={`Re-test: ${house.address}`}
      back={{ to: '/retests', label: 'Re-tests' }}
      lead={
        <>
          <span>
            {house.community}, lot {house.lot} · {house.builder.name}
          </span>
          <span>Measured first by {retest.rater.name}</span>
          <span>
            {sourceWords[retest.source]}, due <DateText date={retest.dueOn} />{' '}
            {retest.overdue && <Tag tone="bad">Overdue</Tag>}
          </span>
          {state === 'done' ? <OutcomeTag outcome={retest.outcome} /> : <Tag>{retestStateWords[state]}</Tag>}
          <Link to={`/review/${house.id}`}>The whole file</Link>
        </>
      }
      actions={
        state === 'ordered' &&
        retest.source !== 'draw' && (
          <Button variant="default" onClick={() => setAsking(true)}>
            Withdraw
          </Button>
        )
      }
    >
      {retest.reason && <p>Why it was ordered: {retest.reason}</p>}
      {retest.note && <p>Note: {retest.note}</p>}
      {visit && (
        <p>
          Second visit: {visit.rater.name}, <Moment at={visit.startsAt} />
        </p>
      )}
      {state !== 'done' ? (
        <p className="soft">
          Both measurements stand here once the second visit is submitted. Until then its rater sees nothing
          of the first.
        </p>
      ) : (
        <Panel title="Both measurements" flush>
          <RowsTable
            caption="Both measurements"
            rows={comparisons}
            keyOf={({ id }) => id}
            columns={columns}
          />
        </Panel>
      )}
      {comparisons[0] && (
        <p className="small soft">
          Allowed is the tolerance (version {comparisons[0].toleranceVersion}) plus both expanded
          uncertainties, combined as the root of their squares. The released file and its verdicts stay as
          they are.
        </p>
      )}
      {notRepeated.length > 0 && (
        <Panel title="Not measured again">
          <ul>
            {notRepeated.map(({ test, subjectLabel }) => (
              <li key={`${test}/${subjectLabel}`}>
                {testOutlines[test].title}, {subjectLabel}
              </li>
            ))}
          </ul>
        </Panel>
      )}
      <ConfirmWords
        title="Withdraw the re-test?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Withdraw it"
        label="Reason"
        required
        onConfirm={async (reason) => {
          await withdraw.mutateAsync({ params: { id: retest.id }, body: { reason } });
          said('The re-test is withdrawn.');
        }}
      />
    </Page>
  );
}
