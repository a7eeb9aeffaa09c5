export { BookDialog } from './book-dialog.tsx';
export { CancelDialog } from './cancel-dialog.tsx';
export { Doubts } from './doubts.tsx';
export { TimeFields } from './time-fields.tsx';
export { instantsOf } from './times.ts';
export { VisitsTable } from './visits-table.tsx';
