import { Button, TextInput } from '@mantine/core';
import { sampling, type Meter, type Obligations } from '@countercheck/contracts';
import { useState } from 'react';
import { Tag } from '../../components/marks/index.ts';
import { ButtonLink, DateText, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { ShareDialog } from './share-dialog.tsx';
import { purposeWords, shareText } from './words.ts';
import './sampling.css';

type Rater = Obligations['raters'][number];

/** Done of due, as a bar with its words; the words say all that the bar does. */
function Done({ meter }: { meter: Meter }) {
  const { done, due, behind } = meter;
  return (
    <span className="owed">
      <span className="owed-words">
        {done} of {due}
        {due > 0 && (behind > 0 ? <Tag tone="bad">{behind} behind</Tag> : <Tag tone="good">Met</Tag>)}
      </span>
      <span className="owed-bar" aria-hidden="true">
        <span style={{ inlineSize: `${due === 0 ? 0 : Math.min(100, (done / due) * 100)}%` }} />
      </span>
    </span>
  );
}

const perMonth = (value: number) => value.toLocaleString('en-US', { maximumFractionDigits: 1 });

/** A review is of a file, a re-test of a house; a house has one file, so that both are counted alike. */
const things = { 'file-review': 'files', 'field-retest': 'houses' } as const;

const columnsOf = (of: (rater: Rater) => Meter, counted: 'files' | 'houses'): Column<Rater>[] => [
  {
    title: 'Rater',
    head: true,
    cell: (row) => (
      <span>
        {row.name}
        {!row.active && <span className="small soft"> (no longer active)</span>}
      </span>
    ),
  },
  {
    title: counted === 'files' ? 'Files in the period' : 'Houses in the period',
    figure: true,
    cell: (row) => row.files,
  },
  {
    title: 'Share',
    figure: true,
    cell: (row) => (
      <span>
        {shareText(of(row).share)} {of(row).raised && <Tag tone="brass">Raised</Tag>}
      </span>
    ),
  },
  { title: 'Done of due', cell: (row) => <Done meter={of(row)} /> },
  {
    title: 'On order',
    cell: (row) => (
      <span>
        {of(row).open}
        {of(row).overdue > 0 && (
          <>
            {' '}
            <Tag tone="bad">{of(row).overdue} overdue</Tag>
          </>
        )}
      </span>
    ),
  },
  {
    title: 'By the end, at today’s pace',
    cell: (row) => {
      const { dueByEnd, stillToDo, expectedFiles, shortAtEnd } = of(row);
      return (
        <span>
          {stillToDo} more of {dueByEnd}{' '}
          <span className="small soft">
            (of {expectedFiles} {counted})
          </span>
          {shortAtEnd > 0 && (
            <>
              {' '}
              <Tag tone="brass">would end {shortAtEnd} short</Tag>
            </>
          )}
        </span>
      );
    },
  },
  {
    title: 'Per month',
    cell: (row) => {
      const { neededPerMonth, donePerMonth } = of(row);
      return (
        <span>
          {neededPerMonth === null ? '–' : perMonth(neededPerMonth)} needed{' '}
          <span className="small soft">({perMonth(donePerMonth)} so far)</span>
        </span>
      );
    },
  },
];

/** What is owed of reviews and re-tests, and whether the year will see it done. */
export default function ObligationsPage() {
  const { values, change } = useListSearch();
  const query = useRoute(
    sampling.obligations,
    { query: { from: values.from, to: values.to } },
    { keepPrevious: true },
  );
  return (
    <Page
      title="Obligations"
      lead="What is owed of file reviews and field re-tests, for each rater."
      actions={<ButtonLink to="/draws">Go to the draws</ButtonLink>}
    >
      <Asked query={query}>
        {(told) => (
          <>
            <div className="filters" role="search" aria-label="Period">
              <TextInput
                type="date"
                label="From"
                value={told.from}
                onChange={(event) => change({ from: event.currentTarget.value })}
              />
              <TextInput
                type="date"
                label="To"
                value={told.to}
                onChange={(event) => change({ to: event.currentTarget.value })}
              />
              <p className="soft small">
                Counted up to <DateText date={told.today} />
              </p>
            </div>
            <Meters told={told} />
          </>
        )}
      </Asked>
    </Page>
  );
}

function Meters({ told }: { told: Obligations }) {
  const [changing, setChanging] = useState<Obligations['shares'][number] | null>(null);
  return (
    <>
      {told.shares.map((share) => (
        <Panel
          key={share.kind}
          title={purposeWords[share.kind]}
          actions={
            <Button variant="default" size="xs" onClick={() => setChanging(share)}>
              Change the share of {purposeWords[share.kind].toLowerCase()}
            </Button>
          }
          flush
        >
          <p className="panel-note">
            {shareText(share.share)} of each rater’s {things[share.kind]}, at least {share.minimum}.{' '}
            <span className="soft">{share.usual ? '' : 'Set by the company: '}</span>
            {share.source}{' '}
            <Tag tone={share.mark === 'seen' ? 'good' : 'plain'}>
              {share.mark === 'seen' ? 'Published' : share.mark}
            </Tag>
          </p>
          {told.raters.length === 0 ? (
            <Empty title="There are no raters yet" />
          ) : (
            <RowsTable
              caption={`${purposeWords[share.kind]} by rater`}
              columns={columnsOf(
                (row) => (share.kind === 'file-review' ? row.fileReviews : row.fieldRetests),
                things[share.kind],
              )}
              rows={told.raters}
              keyOf={({ id }) => id}
            />
          )}
        </Panel>
      ))}
      {changing && <ShareDialog share={changing} onClose={() => setChanging(null)} />}
    </>
  );
}
