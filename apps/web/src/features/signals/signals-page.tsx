import { TextInput } from '@mantine/core';
import {
  signalFindingStates,
  signals,
  type SignalFindingSummary,
  type SignalRun,
} from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { DialogButton, FormBody } from '../../components/feedback/index.ts';
import { optionsOf } from '../../components/fields/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { ButtonLink, DateText, FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { isAtWork, RunPanel, whileAtWork } from '../../components/runs/index.ts';
import { Problem } from '../../components/states/index.ts';
import { ChoiceFilter, DataTable, type Column } from '../../components/table/index.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { Comparisons } from './comparisons.tsx';
import './signals.css';
import { chanceWords, signalWords, stateWords } from './words.ts';

const columns: Column<SignalFindingSummary>[] = [
  {
    title: 'What stood out',
    head: true,
    cell: (row) => (
      <>
        <Link to={`/signals/${row.id}`}>{signalWords[row.signal]}</Link>
        <p className="small soft signal-sentence">{row.sentence}</p>
      </>
    ),
  },
  { title: 'Readings by', cell: (row) => row.rater.name },
  { title: 'Houses', figure: true, cell: (row) => row.houses },
  { title: 'By chance', cell: (row) => chanceWords(row.q) },
  {
    title: 'State',
    cell: (row) => <Tag tone={row.state === 'open' ? 'brass' : 'plain'}>{stateWords[row.state]}</Tag>,
  },
];

function BeginForm({ onDone, onCancel }: { onDone: () => void; onCancel: () => void }) {
  const day = today(useMe().company.timezone);
  const begin = useAction(signals.begin, { invalidates: [signals.runs, signals.findings], onDone });
  const of = useContractForm({
    schema: signals.begin.body,
    initialValues: { from: addDays(day, -365), to: day },
    toBody: (values) => values,
    send: (body) => begin.mutateAsync({ body }),
  });
  return (
    <FormBody of={of} action="Look at them" onCancel={onCancel}>
      <div className="fields">
        <TextInput type="date" label="First day" {...of.form.getInputProps('from')} />
        <TextInput type="date" label="Last day" {...of.form.getInputProps('to')} />
      </div>
      <p className="soft small">
        Every reading that was taken on these days is looked at. Nothing of a house is changed.
      </p>
    </FormBody>
  );
}

function Newest({ run }: { run: SignalRun }) {
  const cancel = useAction(signals.cancel, { invalidates: [signals.runs] });
  return (
    <>
      {run.state !== 'done' && (
        <RunPanel
          run={run}
          what="raters"
          onCancel={() => cancel.mutate({ params: { id: run.id } })}
          cancelling={cancel.isPending}
          error={cancel.error}
        />
      )}
      {run.result && (
        <Panel title="The newest look">
          <FactList
            facts={[
              [
                'Days',
                <>
                  <DateText date={run.from} /> – <DateText date={run.to} />
                </>,
              ],
              ['Done', <Moment at={run.endedAt ?? run.askedAt} />],
              ['Raters', run.result.raters],
              ['Houses', run.result.houses],
              ['Readings', run.result.readings],
              ['Tests with enough to go by', run.result.tests],
            ]}
          />
          <p className="soft small">
            What stands out is a matter of readings, not of persons: it says where to look, and has to be
            looked into before anybody draws a conclusion. With a look each month, at most one in twenty
            raters who measure is told of in a year.
          </p>
        </Panel>
      )}
    </>
  );
}

function emptyWords(newest: SignalRun | undefined): string {
  if (!newest) return 'The readings were not looked at yet';
  return isAtWork(newest) ? 'Nothing so far' : 'Nothing stands out';
}

/** Whether the readings can be believed: what stood out, the most unusual first. */
export default function SignalsPage() {
  const { values, page } = useListSearch();
  const runs = useRoute(signals.runs, { query: { pageSize: 1 } }, { refetchInterval: whileAtWork });
  const newest = runs.data?.items[0];
  const state = oneOf(signalFindingStates, values.state);
  const query = useRoute(
    signals.findings,
    { query: { page, state } },
    {
      keepPrevious: true,
      // Once more after the answer that said it has ended: what a look has found is there from then on.
      refetchInterval: (found) =>
        newest && (isAtWork(newest) || found.state.dataUpdatedAt < runs.dataUpdatedAt) ? 2000 : false,
    },
  );
  return (
    <Page
      title="Signals"
      lead="Readings that are more alike, rounder, faster or farther from their house than measuring makes them."
      actions={
        <>
          <ButtonLink to="/control-charts" variant="default">
            Control charts
          </ButtonLink>
          <DialogButton label="Look at the readings" title="Look at the readings of all raters">
            {(close) => <BeginForm onCancel={close} onDone={close} />}
          </DialogButton>
        </>
      }
    >
      {runs.isError && <Problem error={runs.error} retry={() => void runs.refetch()} />}
      {newest && <Newest run={newest} />}
      <DataTable
        caption="What stood out"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={<ChoiceFilter label="State" name="state" none="All" options={optionsOf(stateWords)} />}
        empty={runs.data ? emptyWords(newest) : 'No finding'}
      />
      {newest?.result && <Comparisons run={newest} result={newest.result} />}
    </Page>
  );
}
