import type { SignalRun, SignalRunResult } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Panel } from '../../components/page/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { chanceWords } from './words.ts';

const signed = (value: number) => `${value > 0 ? '+' : value < 0 ? '−' : ''}${Math.abs(value).toFixed(2)} %`;

/** Raters beside each other on what was reported for the same houses, and instruments over time. */
export function Comparisons({ run, result }: { run: SignalRun; result: SignalRunResult }) {
  const { raterBias, instrumentDrift } = result;
  return (
    <>
      {raterBias.length > 0 && (
        <Panel title="Raters beside each other">
          <p className="soft small">
            Each reading is compared with what the installer reported for the same thing, less what is usual
            for that item and installer; a house counts once. A rater of whom few houses are known is drawn
            toward the mean of all. What lies within twice the standard error may be chance; beyond it, look
            at the instruments first.
          </p>
          <RowsTable
            caption="Raters beside each other"
            rows={raterBias}
            keyOf={(row) => row.id}
            columns={[
              { title: 'Rater', head: true, cell: (row) => row.name },
              { title: 'Readings', figure: true, cell: (row) => row.readings },
              { title: 'Houses', figure: true, cell: (row) => row.houses ?? '–' },
              { title: 'Own mean', figure: true, cell: (row) => signed(row.mean) },
              { title: 'Drawn toward all', figure: true, cell: (row) => signed(row.estimate) },
              { title: 'Standard error', figure: true, cell: (row) => `${row.error.toFixed(2)} %` },
            ]}
          />
        </Panel>
      )}
      {instrumentDrift.length > 0 && (
        <Panel title="Instruments over time">
          <p className="soft small">
            How the readings of each instrument changed over the days, beside its stated accuracy. A change
            that is larger, and that chance brings less than once in a thousand, proposes a check on the
            bench; only the bench says what is wrong.
          </p>
          <RowsTable
            caption="Instruments over time"
            rows={instrumentDrift}
            keyOf={(row) => row.id}
            columns={[
              {
                title: 'Instrument',
                head: true,
                cell: (row) => <Link to={`/instruments/${row.id}`}>{row.name}</Link>,
              },
              { title: 'Readings', figure: true, cell: (row) => row.readings },
              { title: 'Houses', figure: true, cell: (row) => row.houses ?? '–' },
              { title: 'Change', figure: true, cell: (row) => signed(row.change) },
              { title: 'Stated accuracy', figure: true, cell: (row) => `${row.accuracy} %` },
              { title: 'By chance', cell: (row) => chanceWords(row.p) },
              {
                title: 'Moved since',
                cell: (row) => (row.recall && row.since ? <DateText date={row.since} /> : '–'),
              },
              {
                title: 'Proposal',
                cell: (row) =>
                  row.recall ? (
                    <>
                      <Tag tone="brass">Check it</Tag>{' '}
                      <Link
                        to="/recalls"
                        search={{
                          ...{ instrumentId: row.id, from: row.since ?? run.from, to: run.to },
                          percent: row.change.toFixed(2),
                        }}
                        aria-label={`Recall ${row.name}`}
                      >
                        Recall
                      </Link>
                    </>
                  ) : (
                    <Tag tone="good">None</Tag>
                  ),
              },
            ]}
          />
        </Panel>
      )}
    </>
  );
}
