export { BookDialog } from './book-dialog.tsx';
export { VisitsTable } from './visits-table.tsx';
