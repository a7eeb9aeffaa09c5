import { Button } from '@mantine/core';
import type { Visit } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { showTime } from '../../lib/dates.ts';
import { useMe } from '../../lib/session.ts';
import { visitKindWords, visitStateWords } from '../../lib/words/work.ts';
import { Tag } from '../marks/index.ts';
import { Moment } from '../page/index.ts';
import { RowsTable, type Column } from '../table/index.ts';
import { CancelDialog } from './cancel-dialog.tsx';
import { MoveDialog } from './move-dialog.tsx';

const tones = {
  booked: 'brass',
  in_progress: 'brass',
  submitted: 'good',
  not_ready: 'bad',
  cancelled: 'plain',
} as const;

interface VisitsTableProps {
  caption: string;
  visits: readonly Visit[];
  /** on the page of one house the day is told, on the page of one day the house */
  about: 'house' | 'day';
}

/** Visits with what can be done about them. */
export function VisitsTable({ caption, visits, about }: VisitsTableProps) {
  const { role, company } = useMe();
  const [moving, setMoving] = useState<Visit | null>(null);
  const [cancelling, setCancelling] = useState<Visit | null>(null);
  const keeper = role === 'office' || role === 'administrator';
  const columns: Column<Visit>[] = [
    {
      title: 'Time',
      head: about === 'house',
      cell: (row) => (
        <span className="figure">
          {about === 'house' ? <Moment at={row.startsAt} /> : showTime(row.startsAt, company.timezone)}–
          {showTime(row.endsAt, company.timezone)}
        </span>
      ),
    },
  ];
  if (about === 'day') {
    columns.push(
      {
        title: 'House',
        head: true,
        cell: (row) => <Link to={`/houses/${row.house.id}`}>{row.house.address}</Link>,
      },
      { title: 'Lot', cell: (row) => row.house.lot },
      { title: 'Builder', cell: (row) => row.house.builder.name },
    );
  }
  columns.push(
    { title: 'Kind', cell: (row) => visitKindWords[row.kind] },
    { title: 'Rater', cell: (row) => row.rater.name },
    {
      title: 'State',
      cell: (row) => (
        <>
          <Tag tone={tones[row.state]}>{visitStateWords[row.state]}</Tag>
          {row.cause && <span className="small soft"> {row.cause}</span>}
        </>
      ),
    },
    {
      title: 'Actions',
      cell: (row) => (
        <span className="row">
          <Link to={`/visits/${row.id}`} aria-label={`Sheet of ${row.house.address}`}>
            Sheet
          </Link>
          {keeper && row.state === 'booked' && (
            <>
              <Button
                size="compact-sm"
                variant="subtle"
                aria-label={`Move the visit to ${row.house.address}`}
                onClick={() => setMoving(row)}
              >
                Move
              </Button>
              <Button
                size="compact-sm"
                variant="subtle"
                color="red"
                aria-label={`Cancel the visit to ${row.house.address}`}
                onClick={() => setCancelling(row)}
              >
                Cancel
              </Button>
            </>
          )}
        </span>
      ),
    },
  );
  return (
    <>
      <RowsTable caption={caption} columns={columns} rows={visits} keyOf={(row) => row.id} />
      {moving && <MoveDialog visit={moving} onClose={() => setMoving(null)} />}
      {cancelling && <CancelDialog visit={cancelling} onClose={() => setCancelling(null)} />}
    </>
  );
}
