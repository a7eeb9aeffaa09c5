import { Button } from '@mantine/core';
import { retests, type RetestSummary } from '@countercheck/contracts';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { BookDialog } from '../../components/booking/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { ButtonLink, Moment, Page } from '../../components/page/index.ts';
import { OrderDialog, SecondLookList } from '../../components/second-looks/index.ts';
import type { Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { retestStateWords } from '../../lib/words/quality.ts';
import { OutcomeTag } from './outcome-tag.tsx';

const shown = [
  { value: 'overdue', label: 'Overdue' },
  { value: 'done', label: 'Done' },
  { value: 'differs', label: 'Done, and the two differ' },
  { value: 'withdrawn', label: 'Withdrawn' },
] as const;

/** Houses to be measured a second time, the one due first on top. */
export default function RetestsPage() {
  const { values, page } = useListSearch();
  const onDesk = useRole('quality', 'administrator');
  const books = useRole('office', 'administrator');
  const [ordering, setOrdering] = useState(false);
  const [booking, setBooking] = useState<RetestSummary | null>(null);
  const query = useRoute(
    retests.list,
    {
      query: {
        page,
        which: oneOf(['overdue', 'done', 'differs', 'withdrawn'], values.which) ?? 'open',
        raterId: values.raterId,
        search: values.search,
      },
    },
    { keepPrevious: true },
  );
  const navigate = useNavigate();
  const order = useAction(retests.order, {
    invalidates: [retests.list],
    onDone: ({ id }) => navigate({ to: `/retests/${id}` }),
  });
  const after: Column<RetestSummary>[] = [
    {
      title: 'Second visit',
      cell: ({ visit }) =>
        visit ? (
          <>
            {visit.rater.name}, <Moment at={visit.startsAt} day />
          </>
        ) : (
          '–'
        ),
    },
    {
      title: 'State',
      cell: (row) =>
        row.state === 'done' ? (
          <OutcomeTag outcome={row.outcome} />
        ) : (
          <Tag>{retestStateWords[row.state]}</Tag>
        ),
    },
    ...(books
      ? [
          {
            title: 'Booking',
            cell: (row: RetestSummary) =>
              row.state === 'ordered' && (
                <Button
                  variant="default"
                  size="xs"
                  aria-label={`Book the re-test at ${row.house.address}`}
                  onClick={() => setBooking(row)}
                >
                  Book
                </Button>
              ),
          },
        ]
      : []),
  ];
  return (
    <Page
      title="Re-tests"
      lead="Houses measured a second time by another rater, who does not see the first result."
      actions={
        onDesk && (
          <>
            <ButtonLink to="/differences" variant="default">
              Differences over time
            </ButtonLink>
            <Button onClick={() => setOrdering(true)}>Order a re-test</Button>
          </>
        )
      }
    >
      <SecondLookList
        caption="Re-tests"
        query={query}
        to={({ id, house }) => (onDesk ? `/retests/${id}` : `/houses/${house.id}`)}
        rater="Measured first by"
        after={after}
        shown={shown}
        none="Every open re-test"
        empty="No re-test is like that"
      />
      {ordering && (
        <OrderDialog
          title="Order a re-test"
          route={retests.order}
          days={21}
          whyHelp="May be left out. The second rater does not see it."
          onOrder={(body) => order.mutateAsync({ body })}
          onClose={() => setOrdering(false)}
        />
      )}
      {booking && (
        <BookDialog
          house={booking.house}
          kind="quality"
          onClose={() => {
            setBooking(null);
            void query.refetch();
          }}
        />
      )}
    </Page>
  );
}
