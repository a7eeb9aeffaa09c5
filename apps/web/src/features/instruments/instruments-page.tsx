import { instruments, type Instrument } from '@countercheck/contracts';
import { instrumentKinds } from '@countercheck/measurement';
import { Link, useNavigate } from '@tanstack/react-router';
import { DialogButton } from '../../components/feedback/index.ts';
import { optionsOf } from '../../components/fields/index.ts';
import { Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';
import { instrumentWords } from '../../lib/words/instruments.ts';
import { CalibrationTag } from './calibration-tag.tsx';
import { InstrumentForm } from './instrument-form.tsx';

const columns: Column<Instrument>[] = [
  { title: 'Label', head: true, cell: (row) => <Link to={`/instruments/${row.id}`}>{row.label}</Link> },
  { title: 'Kind', cell: (row) => instrumentWords[row.kind] },
  { title: 'Serial number', cell: (row) => <span className="code">{row.serial}</span> },
  { title: 'Calibration', cell: (row) => <CalibrationTag instrument={row} /> },
];

export default function InstrumentsPage() {
  const { values, page } = useListSearch();
  const query = useRoute(
    instruments.list,
    { query: { page, search: values.search, kind: oneOf(instrumentKinds, values.kind) } },
    { keepPrevious: true },
  );
  const keeper = useRole('office', 'quality', 'administrator');
  const navigate = useNavigate();
  return (
    <Page
      title="Instruments"
      actions={
        keeper && (
          <DialogButton label="Register an instrument">
            {(close) => (
              <InstrumentForm
                onCancel={close}
                onDone={({ id }) => void navigate({ to: `/instruments/${id}` })}
              />
            )}
          </DialogButton>
        )
      }
    >
      <DataTable
        caption="Instruments"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={
          <>
            <SearchFilter label="Label or serial number" />
            <ChoiceFilter label="Kind" name="kind" none="Any kind" options={optionsOf(instrumentWords)} />
          </>
        }
        empty="No instrument found"
      />
    </Page>
  );
}
