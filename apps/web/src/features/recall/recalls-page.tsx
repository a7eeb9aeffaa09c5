import { Button } from '@mantine/core';
import { recall, type RecallSheet } from '@countercheck/contracts';
import { instrumentErrorWords } from '@countercheck/assessment';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { Dialog } from '../../components/feedback/index.ts';
import { DateText, Moment, Page } from '../../components/page/index.ts';
import { RunTag, whileAtWork } from '../../components/runs/index.ts';
import { DataTable, type Column } from '../../components/table/index.ts';
import { useListSearch, type ListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useInstrument } from '../../lib/use-instrument.ts';
import { RecallForm, type ProposedRecall } from './recall-form.tsx';

const columns: Column<RecallSheet>[] = [
  {
    title: 'Instrument',
    head: true,
    cell: (row) => <Link to={`/recalls/${row.id}`}>{row.instrument.label}</Link>,
  },
  {
    title: 'What was wrong',
    cell: (row) => (
      <span className="first-upper">{instrumentErrorWords(row.error, row.instrument.kind)}</span>
    ),
  },
  {
    title: 'Days',
    cell: (row) => (
      <>
        <DateText date={row.from} /> – <DateText date={row.to} />
      </>
    ),
  },
  { title: 'Begun', cell: (row) => <Moment at={row.askedAt} /> },
  { title: 'To measure again', figure: true, cell: (row) => row.result?.revisit ?? '–' },
  { title: 'State', cell: (row) => <RunTag run={row} /> },
];

const date = (value: string | undefined) => (/^\d{4}-\d{2}-\d{2}$/.test(value ?? '') ? value : undefined);

/** The recall that the address proposes, as soon as its instrument is known. */
function useProposed({ instrumentId, from, to, percent }: ListSearch): ProposedRecall | undefined {
  const { data: instrument } = useInstrument(instrumentId ?? '');
  const gain = percent === undefined ? NaN : Number(percent);
  if (!instrumentId || !instrument) return undefined;
  return { instrument, from: date(from), to: date(to), percent: Number.isFinite(gain) ? gain : undefined };
}

/** Instruments that were found out of tolerance, and what that did. */
export default function RecallsPage() {
  const { page, values, change } = useListSearch();
  const query = useRoute(
    recall.list,
    { query: { page } },
    { keepPrevious: true, refetchInterval: whileAtWork },
  );
  const navigate = useNavigate();
  const [asking, setAsking] = useState(false);
  const proposed = useProposed(values);
  const close = () => {
    setAsking(false);
    change({ instrumentId: null, from: null, to: null, percent: null });
  };
  return (
    <Page
      title="Recalls"
      lead="Readings of an instrument out of tolerance, judged again without its error."
      actions={<Button onClick={() => setAsking(true)}>Recall an instrument</Button>}
    >
      <DataTable
        caption="Recalls"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        empty="No instrument was recalled yet"
      />
      {(asking || proposed) && (
        <Dialog title="Recall an instrument" onClose={close} wide>
          <RecallForm
            proposed={proposed}
            onCancel={close}
            onDone={({ id }) => void navigate({ to: `/recalls/${id}` })}
          />
        </Dialog>
      )}
    </Page>
  );
}
