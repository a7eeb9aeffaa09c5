import type { Instrument } from '@countercheck/contracts';
import { plainNumber } from '@countercheck/measurement';
import { DateText, FactList, Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { showDate } from '../../lib/dates.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { FlowTable } from './table/flow-table.tsx';
import './instruments.css';

type Range = Instrument['calibrations'][number]['ranges'][number];

const columns: Column<Range>[] = [
  { title: 'Range', head: true, cell: (row) => row.range },
  { title: 'c (cfm)', figure: true, cell: (row) => row.c },
  { title: 'n', figure: true, cell: (row) => row.n },
  { title: 'From (Pa)', figure: true, cell: (row) => row.minPa },
  { title: 'To (Pa)', figure: true, cell: (row) => row.maxPa },
];

function RangesOf({ ranges, calibratedOn }: { ranges: readonly Range[]; calibratedOn: string }) {
  const byCoefficients = ranges.filter(({ table }) => !table);
  return (
    <>
      {byCoefficients.length > 0 && (
        <>
          <p className="soft">Flow = c × pressure ^ n within each range</p>
          <RowsTable
            caption={`Ranges calibrated ${calibratedOn}`}
            columns={columns}
            rows={byCoefficients}
            keyOf={(row) => row.range}
          />
        </>
      )}
      {ranges.map(
        ({ range, table, minPa, maxPa }) =>
          table && (
            <section key={range} className="stack" aria-label={`Range ${range}`}>
              <h3>Range {range}</h3>
              <p className="soft">
                Read from the maker’s table, from {plainNumber(minPa)} to {plainNumber(maxPa)} Pa
              </p>
              <FlowTable range={range} table={table} />
            </section>
          ),
      )}
    </>
  );
}

/** Every calibration, newest first; a reading is judged by the one in force on its day. */
export function CalibrationsPanel({ instrument }: { instrument: Instrument }) {
  if (instrument.calibrations.length === 0) {
    return (
      <Panel title="Calibrations" flush>
        <Empty title="No calibration recorded">Readings taken with it do not count.</Empty>
      </Panel>
    );
  }
  return instrument.calibrations.map((each) => (
    <Panel key={each.id} title={`Calibration of ${showDate(each.calibratedOn)}`}>
      <div className="stack">
        <FactList
          facts={[
            ['Calibrated', <DateText date={each.calibratedOn} />],
            ['Due again', <DateText date={each.dueOn} />],
            ['Certificate', each.certificate],
          ]}
        />
        <RangesOf ranges={each.ranges} calibratedOn={each.calibratedOn} />
      </div>
    </Panel>
  ));
}
