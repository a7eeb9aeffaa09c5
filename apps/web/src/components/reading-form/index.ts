export { Confirmations } from './confirmations.tsx';
export {
  allConfirmed,
  emptyForm,
  type EnteredForm,
  hasEntries,
  newId,
  type NewId,
  readForm,
  emptyRow,
  type EnteredRow,
} from './entered.ts';
export { PartFields } from './part-fields.tsx';
export { problemsByPath, serverPaths } from './problems.ts';
export { nextRow, RowsEntry } from './rows-entry.tsx';
export { entryFromStored, shownText, turnSign, type TypedEntry } from './typed-entry.ts';
