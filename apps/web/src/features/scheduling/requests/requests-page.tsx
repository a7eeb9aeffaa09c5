import { Button } from '@mantine/core';
import { scheduling, visitRequestStates, visitKinds, type VisitRequest } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { optionsOf } from '../../../components/fields/index.ts';
import { Tag } from '../../../components/marks/index.ts';
import { DateText, Page } from '../../../components/page/index.ts';
import { AskVisitDialog, DueTag } from '../../../components/readiness/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../../components/table/index.ts';
import { oneOf, useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';
import {
  deadlineWords,
  durationWords,
  readinessShort,
  sourceWords,
  visitRequestStateWords,
} from '../../../lib/words/scheduling.ts';
import { visitKindWords } from '../../../lib/words/work.ts';

const columns: Column<VisitRequest>[] = [
  {
    title: 'House',
    head: true,
    cell: (row) => <Link to={`/requests/${row.id}`}>{row.house.address}</Link>,
  },
  { title: 'Builder', cell: (row) => row.house.builder.name },
  { title: 'Visit', cell: (row) => visitKindWords[row.kind] },
  { title: 'Because', cell: (row) => sourceWords[row.source] },
  { title: 'From', cell: (row) => <DateText date={row.earliestOn} /> },
  {
    title: 'By',
    cell: (row) =>
      row.deadlineOn ? (
        <>
          <DateText date={row.deadlineOn} /> {deadlineWords[row.deadlineWhy ?? 'agreed']}{' '}
          <DueTag request={row} />
        </>
      ) : (
        '–'
      ),
  },
  {
    title: 'Takes',
    figure: true,
    cell: (row) => <span className="figure">{durationWords(row.minutes)}</span>,
  },
  {
    title: 'Readiness',
    cell: (row) => (
      <Tag
        tone={
          row.readiness.ready
            ? 'good'
            : row.readiness.points.some(({ ready }) => ready === false)
              ? 'bad'
              : 'plain'
        }
      >
        {readinessShort(row.readiness)}
      </Tag>
    ),
  },
  {
    title: 'State',
    cell: (row) =>
      row.visitId ? (
        <Link to={`/visits/${row.visitId}`}>{visitRequestStateWords[row.state]}</Link>
      ) : (
        visitRequestStateWords[row.state]
      ),
  },
];

/** Visits that are asked for, those that are due first. */
export default function RequestsPage() {
  const { values, page } = useListSearch();
  const keeper = useRole('office', 'administrator');
  const [asking, setAsking] = useState(false);
  const query = useRoute(
    scheduling.requests,
    {
      query: {
        page,
        state: oneOf(visitRequestStates, values.state) ?? (values.state === 'all' ? undefined : 'open'),
        kind: oneOf(visitKinds, values.kind),
      },
    },
    { keepPrevious: true },
  );
  return (
    <Page
      title="Requests"
      actions={keeper && <Button onClick={() => setAsking(true)}>Ask for a visit</Button>}
    >
      <DataTable
        caption="Visits asked for"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={
          <>
            <ChoiceFilter
              label="State"
              name="state"
              none={visitRequestStateWords.open}
              options={[
                ...optionsOf(visitRequestStateWords).filter(({ value }) => value !== 'open'),
                { value: 'all', label: 'Any state' },
              ]}
            />
            <ChoiceFilter label="Visit" name="kind" none="Any kind" options={optionsOf(visitKindWords)} />
          </>
        }
        empty="Nothing is asked for"
      />
      {asking && <AskVisitDialog onClose={() => setAsking(false)} />}
    </Page>
  );
}
