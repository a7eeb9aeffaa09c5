import { later } from '../../../lib/later.ts';

/** The sheet with what waits on this phone: computing a house anew is not needed to open a sheet. */
export const laterSheet = later(() => import('./local-sheet.ts'));
