import { Pagination } from '@mantine/core';
import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import { useListSearch } from '../../lib/list-search.ts';
import { Empty, Loading, Problem } from '../states/index.ts';
import './table.css';

export interface Column<Row> {
  title: string;
  cell: (row: Row) => ReactNode;
  /** figures stand at the right */
  figure?: boolean;
  /** the cell that names the row */
  head?: boolean;
}

interface RowsTableProps<Row> {
  caption: string;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  keyOf: (row: Row) => string;
}

/** Rows under a caption; on a narrow screen every row becomes a small card with its labels. */
export function RowsTable<Row>({ caption, columns, rows, keyOf }: RowsTableProps<Row>) {
  return (
    // As cards the rows are no table to the style sheet any more; the roles keep them one to a reader.
    <table className="table" role="table">
      <caption className="visually-hidden">{caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map((column) => (
            <th
              key={column.title}
              scope="col"
              role="columnheader"
              className={column.figure ? 'at-right' : ''}
            >
              {column.title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => (
          <tr key={keyOf(row)} role="row">
            {columns.map((column) => {
              const Cell = column.head ? 'th' : 'td';
              return (
                <Cell
                  key={column.title}
                  {...(column.head ? { scope: 'row', role: 'rowheader' } : { role: 'cell' })}
                  className={column.figure ? 'at-right' : ''}
                  data-label={column.title}
                >
                  {column.cell(row)}
                </Cell>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface DataTableProps<Row> extends Omit<RowsTableProps<Row>, 'rows'> {
  query: UseQueryResult<{ items: Row[]; total: number; page: number; pageSize: number }>;
  /** filter controls; they keep their values in the address */
  filters?: ReactNode;
  empty: ReactNode;
}

/** One page of a list that the server filtered and counted. */
export function DataTable<Row>({ query, filters, empty, ...table }: DataTableProps<Row>) {
  const { page, change } = useListSearch();
  const { data } = query;
  const pages = data ? Math.max(1, Math.ceil(data.total / data.pageSize)) : 1;
  return (
    <div className="data-table" aria-busy={query.isFetching}>
      {filters && (
        <div className="filters" role="search" aria-label={`Filter: ${table.caption}`}>
          {filters}
        </div>
      )}
      {query.isError && <Problem error={query.error} retry={() => void query.refetch()} />}
      {!data && !query.isError && <Loading />}
      {data && data.items.length > 0 && <RowsTable {...table} rows={data.items} />}
      {data && data.items.length === 0 && (typeof empty === 'string' ? <Empty title={empty} /> : empty)}
      {data && data.total > 0 && (
        <footer className="table-foot">
          <span role="status">
            {(data.page - 1) * data.pageSize + 1}–{Math.min(data.page * data.pageSize, data.total)} of{' '}
            {data.total}
          </span>
          {pages > 1 && (
            <nav aria-label={`Pages: ${table.caption}`}>
              <Pagination
                total={pages}
                value={page}
                siblings={1}
                size="sm"
                onChange={(next) => change({ page: next === 1 ? null : String(next) }, true)}
                getItemProps={(item) => ({ 'aria-label': `Page ${item}` })}
                getControlProps={(control) => ({
                  'aria-label': control === 'next' ? 'Next page' : 'Previous page',
                })}
              />
            </nav>
          )}
        </footer>
      )}
    </div>
  );
}
