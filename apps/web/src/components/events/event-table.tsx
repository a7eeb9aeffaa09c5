import type { EventRecord } from '@countercheck/contracts';
import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { Moment } from '../page/index.ts';
import { DataTable, type Column } from '../table/index.ts';
import { actionWords, changesOf } from './event-words.ts';

const columns: Column<EventRecord>[] = [
  { title: 'When', cell: (row) => <Moment at={row.at} /> },
  { title: 'What', head: true, cell: (row) => actionWords(row.action) },
  { title: 'Who', cell: (row) => row.actorName },
  { title: 'Reason', cell: (row) => row.reason ?? '–' },
  {
    title: 'Change',
    cell: (row) => {
      const changes = changesOf(row.before, row.after);
      if (changes.length === 0) return '–';
      return (
        <details>
          <summary aria-label={`What changed: ${actionWords(row.action)}`}>
            {changes.length === 1 ? '1 field' : `${changes.length} fields`}
          </summary>
          <ul className="plain-list small">
            {changes.map(({ field, from, to }) => (
              <li key={field} className="prewrap">
                <span className="code">{field}</span>: {from} → {to}
              </li>
            ))}
          </ul>
        </details>
      );
    },
  },
];

interface EventTableProps {
  query: UseQueryResult<{ items: EventRecord[]; total: number; page: number; pageSize: number }>;
  filters?: ReactNode;
}

/** What happened, newest first: who did what, and what changed by it. */
export function EventTable({ query, filters }: EventTableProps) {
  return (
    <DataTable
      caption="Events"
      columns={columns}
      keyOf={(row) => row.id}
      query={query}
      filters={filters}
      empty="Nothing has happened yet"
    />
  );
}
