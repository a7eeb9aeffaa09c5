export { type Column, DataTable, RowsTable } from './data-table.tsx';
export { ChoiceFilter, SearchFilter } from './filters.tsx';
