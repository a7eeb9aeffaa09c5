import { Button } from '@mantine/core';
import { failedItems, type ReinspectionRequest } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { BookDialog } from '../../components/booking/index.ts';
import { optionsOf } from '../../components/fields/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Moment, Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { requestStateWords } from '../../lib/words/work.ts';

const states = ['asked', 'booked', 'done', 'withdrawn'] as const;

/** Reinspections that builders asked for; a visit is booked straight from the request. */
export default function ReinspectionsPage() {
  const { values, page } = useListSearch();
  const keeper = useRole('office', 'administrator');
  const query = useRoute(
    failedItems.requests,
    { query: { page, state: oneOf(states, values.state) } },
    { keepPrevious: true },
  );
  const [booking, setBooking] = useState<ReinspectionRequest | null>(null);
  const columns: Column<ReinspectionRequest>[] = [
    {
      title: 'House',
      head: true,
      cell: (row) => <Link to={`/houses/${row.house.id}`}>{row.house.address}</Link>,
    },
    { title: 'Lot', cell: (row) => row.house.lot },
    { title: 'Builder', cell: (row) => row.house.builder },
    { title: 'Items', figure: true, cell: (row) => row.items },
    { title: 'Asked', cell: (row) => <Moment at={row.askedAt} /> },
    { title: 'By', cell: (row) => row.askedByName },
    { title: 'Not before', cell: (row) => <DateText date={row.earliestOn} /> },
    { title: 'Note', cell: (row) => row.note ?? '–' },
    {
      title: 'State',
      cell: (row) =>
        row.state === 'asked' && keeper ? (
          <Button
            size="compact-sm"
            aria-label={`Book the reinspection of ${row.house.address}`}
            onClick={() => setBooking(row)}
          >
            Book
          </Button>
        ) : row.visitId ? (
          <Link to={`/visits/${row.visitId}`}>{requestStateWords[row.state]}</Link>
        ) : (
          <Tag>{requestStateWords[row.state]}</Tag>
        ),
    },
  ];
  return (
    <Page title="Reinspections">
      <DataTable
        caption="Reinspections asked for"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={
          <ChoiceFilter label="State" name="state" none="Any state" options={optionsOf(requestStateWords)} />
        }
        empty="No reinspection was asked for"
      />
      {booking && (
        <BookDialog
          house={booking.house}
          requestId={booking.id}
          {...(booking.earliestOn ? { day: booking.earliestOn } : {})}
          onClose={() => setBooking(null)}
        />
      )}
    </Page>
  );
}
