import { severities } from '@countercheck/contracts';
import { useState } from 'react';
import * as z from 'zod';

const draftSchema = z.object({
  note: z.string(),
  findings: z.array(
    z.object({
      key: z.string(),
      /** `item/subject`, or empty for the file as a whole */
      about: z.string(),
      severity: z.enum(severities),
      text: z.string(),
    }),
  ),
});
export type ReturnDraft = z.infer<typeof draftSchema>;
export type DraftFinding = ReturnDraft['findings'][number];

export const emptyReturn: ReturnDraft = { note: '', findings: [] };
const keyOf = (houseId: string) => `return-draft:${houseId}`;

export function readReturn(kept: string | null): ReturnDraft {
  try {
    const read = draftSchema.safeParse(JSON.parse(kept ?? 'null'));
    return read.success ? read.data : emptyReturn;
  } catch {
    return emptyReturn;
  }
}

/** What the contract takes: the item and the part apart. */
export function toReturnBody({ note, findings }: ReturnDraft) {
  return {
    note,
    findings: findings.map(({ about, severity, text }) => {
      const cut = about.indexOf('/');
      return {
        item: cut > 0 ? about.slice(0, cut) : null,
        subjectId: cut > 0 ? about.slice(cut + 1) : null,
        severity,
        text,
      };
    }),
  };
}

/** Findings noted while going through a file; they outlive a reload. */
export function useReturnDraft(houseId: string) {
  const [draft, setDraft] = useState(() => readReturn(localStorage.getItem(keyOf(houseId))));
  const change = (next: ReturnDraft) => {
    setDraft(next);
    localStorage.setItem(keyOf(houseId), JSON.stringify(next));
  };
  const clear = () => {
    setDraft(emptyReturn);
    localStorage.removeItem(keyOf(houseId));
  };
  return { draft, change, clear };
}
