import { severities, type EventRecord } from '@countercheck/contracts';
import * as z from 'zod';

const finding = z.object({
  /** without it the finding can be read but not answered one by one */
  id: z.string().optional(),
  item: z.string().nullish(),
  subjectId: z.string().nullish(),
  severity: z.enum(severities),
  text: z.string(),
});
const returned = z.object({ findings: z.array(finding) });
const answered = z.object({ answer: z.string() });

export interface OpenFinding extends z.infer<typeof finding> {
  answer: string | null;
}
export interface ReturnedWith {
  note: string | null;
  byName: string;
  at: string;
  findings: OpenFinding[];
}

/** The newest return of a file, told from its events (newest first), with the answers given since. */
export function findingsFrom(events: readonly EventRecord[]): ReturnedWith | null {
  const at = events.findIndex(({ action }) => action === 'file returned');
  const event = events[at];
  if (!event) return null;
  const read = returned.safeParse(event.after);
  const answers = new Map<string, string>();
  for (const each of events.slice(0, at)) {
    const answer = each.action === 'finding answered' ? answered.safeParse(each.after) : null;
    if (answer?.success && !answers.has(each.recordId)) answers.set(each.recordId, answer.data.answer);
  }
  return {
    note: event.reason,
    byName: event.actorName,
    at: event.at,
    findings: read.success
      ? read.data.findings.map((each) => ({ ...each, answer: answers.get(each.id ?? '') ?? null }))
      : [],
  };
}
