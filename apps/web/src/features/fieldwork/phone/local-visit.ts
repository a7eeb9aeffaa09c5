import type { VisitSheet } from '@countercheck/contracts';
import type { Entry } from '../outbox/entry.ts';
import type { Content } from './content.ts';

export type Entered = Pick<Entry<Content>, 'id' | 'madeAt' | 'content'>;

/** The visit as it stands with what was entered on this phone. */
export function visitWith(visit: VisitSheet['visit'], entries: readonly Entered[]): VisitSheet['visit'] {
  let next = visit;
  for (const { content } of entries) {
    if (content.visitId !== visit.id) continue;
    if (content.kind === 'reading' && next.state === 'booked')
      next = { ...next, state: 'in_progress', startedAt: content.body.takenAt };
    if (content.kind === 'submission') next = { ...next, state: 'submitted' };
    if (content.kind === 'not-ready') next = { ...next, state: 'not_ready', cause: content.body.cause };
  }
  return next;
}
