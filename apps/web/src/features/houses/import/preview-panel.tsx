import { Button } from '@mantine/core';
import type { ImportPreview } from '@countercheck/contracts';
import { useState } from 'react';
import { Tag } from '../../../components/marks/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { Problem } from '../../../components/states/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';

type Row = ImportPreview['rows'][number];
const shown = 200;

const columns: Column<Row>[] = [
  { title: 'Line', figure: true, cell: (row) => row.line },
  { title: 'Lot', cell: (row) => row.values.lot || '–' },
  { title: 'Address', cell: (row) => row.values.address || '–' },
  { title: 'Community', cell: (row) => row.values.community || '–' },
  { title: 'Plan', cell: (row) => row.values.plan || '–' },
  {
    title: 'Finding',
    cell: (row) =>
      row.problems.length === 0 ? (
        <Tag tone="good">Good</Tag>
      ) : (
        <ul className="plain-list">
          {row.problems.map((problem) => (
            <li key={`${problem.column} ${problem.message}`}>
              {problem.column && <span className="code">{problem.column}: </span>}
              {problem.message}
            </li>
          ))}
        </ul>
      ),
  },
];

/** What the check found, bad rows first; loads only when every row is good. */
export function PreviewPanel({ preview, onLoad }: { preview: ImportPreview; onLoad: () => Promise<void> }) {
  const [error, setError] = useState<unknown>(null);
  const [busy, setBusy] = useState(false);
  const ready = preview.bad === 0 && preview.problems.length === 0 && preview.good > 0;
  const rows = preview.rows.toSorted((a, b) => b.problems.length - a.problems.length || a.line - b.line);

  async function load() {
    setBusy(true);
    setError(null);
    await onLoad().catch(setError);
    setBusy(false);
  }

  return (
    <Panel
      title={`${preview.good} good rows, ${preview.bad} with problems`}
      actions={
        ready && (
          <Button loading={busy} onClick={() => void load()}>
            Register {preview.good} houses
          </Button>
        )
      }
    >
      <div className="stack" role="status">
        {!ready && <p>Nothing is loaded until every row is good. Correct the rows and check again.</p>}
        {preview.problems.map((problem) => (
          <p key={problem}>
            <Tag tone="bad">File</Tag> {problem}
          </p>
        ))}
        {error !== null && <Problem error={error} />}
        <RowsTable
          caption="Rows of the file"
          columns={columns}
          rows={rows.slice(0, shown)}
          keyOf={(row) => String(row.line)}
        />
        {rows.length > shown && <p className="soft">and {rows.length - shown} more rows</p>}
      </div>
    </Panel>
  );
}
