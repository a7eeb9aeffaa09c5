import type { VisitRequest } from '@countercheck/contracts';
import { today } from '../../lib/dates.ts';
import { useMe } from '../../lib/session.ts';
import { dueWords } from '../../lib/words/scheduling.ts';
import { Tag } from '../marks/index.ts';

/** Warns of a deadline of a visit that is still to be made. */
export function DueTag({ request }: { request: Pick<VisitRequest, 'state' | 'deadlineOn'> }) {
  const now = today(useMe().company.timezone);
  const due = dueWords(request.deadlineOn, now);
  if (!due || (request.state !== 'open' && request.state !== 'booked')) return null;
  return <Tag tone={due.tone}>{due.words}</Tag>;
}
