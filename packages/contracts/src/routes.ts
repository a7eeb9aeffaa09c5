import { administration } from './features/administration.ts';
import { batches } from './features/batches.ts';
import { builders } from './features/builders.ts';
import { eventLog } from './features/event-log.ts';
import { failedBoard } from './features/failed-board.ts';
import { correctiveActions } from './features/corrective-actions.ts';
import { failedItems } from './features/failed-items.ts';
import { fileReviews } from './features/file-reviews.ts';
import { fieldwork } from './features/fieldwork.ts';
import { houses } from './features/houses.ts';
import { installers } from './features/installers.ts';
import { instruments } from './features/instruments.ts';
import { planning } from './features/planning.ts';
import { recall } from './features/recall.ts';
import { replay } from './features/replay.ts';
import { retests } from './features/retests.ts';
import { review } from './features/review.ts';
import { sampling } from './features/sampling.ts';
import { scheduling } from './features/scheduling.ts';
import { service } from './features/service.ts';
import { session } from './features/session.ts';
import { signals } from './features/signals.ts';
import { visits } from './features/visits.ts';

/** Every endpoint of the service, by feature. */
export const routes = {
  session,
  administration,
  builders,
  houses,
  installers,
  instruments,
  visits,
  scheduling,
  planning,
  fieldwork,
  failedItems,
  failedBoard,
  replay,
  recall,
  review,
  eventLog,
  sampling,
  batches,
  fileReviews,
  retests,
  correctiveActions,
  service,
  signals,
};
