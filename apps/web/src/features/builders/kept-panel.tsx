import type { ReactNode } from 'react';
import { DialogButton } from '../../components/feedback/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';

interface KeptPanelProps<Row> {
  title: string;
  /** one of them */
  one: string;
  rows: readonly Row[];
  columns: readonly Column<Row>[];
  /** may add to the list and change what is on it */
  keeper: boolean;
  /** what they are for, while there is none */
  purpose: string;
  wide?: boolean;
  /** the form for a new one or for the one given */
  form: (row: Row | undefined, close: () => void) => ReactNode;
  /** what else can be done with a row */
  more?: (row: Row) => ReactNode;
}

/** A list that belongs to a builder; who keeps it adds and changes in a dialog. */
export function KeptPanel<Row extends { id: string; name: string }>(props: KeptPanelProps<Row>) {
  const { title, one, rows, columns, keeper, purpose, wide = false, form, more } = props;
  const actions: Column<Row> = {
    title: 'Actions',
    cell: (row) => (
      <span className="row">
        <DialogButton
          label="Change"
          spoken={`Change ${row.name}`}
          title={`Change ${row.name}`}
          size="compact-sm"
          variant="subtle"
          wide={wide}
        >
          {(close) => form(row, close)}
        </DialogButton>
        {more?.(row)}
      </span>
    ),
  };
  return (
    <Panel
      title={title}
      flush
      actions={
        keeper && (
          <DialogButton label={`Add a ${one}`} size="xs" variant="default" wide={wide}>
            {(close) => form(undefined, close)}
          </DialogButton>
        )
      }
    >
      {rows.length === 0 ? (
        <Empty title={`No ${one} yet`}>{purpose}</Empty>
      ) : (
        <RowsTable
          caption={title}
          columns={keeper ? [...columns, actions] : columns}
          rows={rows}
          keyOf={(row) => row.id}
        />
      )}
    </Panel>
  );
}
