import type { VisitSheet } from '@countercheck/contracts';
import { createContext, use } from 'react';

export interface SheetView {
  sheet: VisitSheet;
  /** the rater whose visit this is, while it is open */
  mayRecord: boolean;
}
export const SheetContext = createContext<SheetView | null>(null);

export function useSheetView(): SheetView {
  const view = use(SheetContext);
  if (!view) throw new Error('a part of the sheet stands outside of it');
  return view;
}
