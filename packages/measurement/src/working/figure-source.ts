/**
 * Where a figure comes from and how sure the company is of it; the same shape that rule sets use. `published`
 * means seen at the address in the citation; `confirmed` is true only for a seen text or after the company
 * confirmed the figure. A figure that is not confirmed must be shown as such.
 */
export interface FigureSource {
  kind: 'published' | 'common-practice' | 'from-memory' | 'computed';
  citation: string;
  confirmed: boolean;
}

/** A figure that was seen at an address, or in a document whose address is withheld. */
export function seen(citation: string): FigureSource {
  return { kind: 'published', citation, confirmed: true };
}

/** A figure whose text nobody here could read. It is a proposal: the company confirms or replaces it. */
export function fromMemory(citation: string): FigureSource {
  return { kind: 'from-memory', citation: `${citation}, from memory`, confirmed: false };
}

/** A figure that only the trade vouches for. */
export const commonPractice: FigureSource = {
  kind: 'common-practice',
  citation: 'common practice, no published source',
  confirmed: false,
};
