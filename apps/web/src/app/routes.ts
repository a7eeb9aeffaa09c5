import { accountRoutes } from '../features/account/routes.ts';
import { administrationRoutes } from '../features/administration/routes.ts';
import { batchRoutes } from '../features/batches/routes.ts';
import { builderDeskRoutes } from '../features/builder-desk/routes.ts';
import { builderRoutes } from '../features/builders/routes.ts';
import { calculatorRoutes } from '../features/calculator/routes.ts';
import { eventLogRoutes } from '../features/event-log/routes.ts';
import { correctiveActionRoutes } from '../features/corrective-actions/routes.ts';
import { failedItemRoutes } from '../features/failed-items/routes.ts';
import { fieldworkRoutes } from '../features/fieldwork/routes.ts';
import { fileReviewRoutes } from '../features/file-reviews/routes.ts';
import { figuresRoutes } from '../features/figures/routes.ts';
import { houseRoutes } from '../features/houses/routes.ts';
import { installerRoutes } from '../features/installers/routes.ts';
import { instrumentRoutes } from '../features/instruments/routes.ts';
import { overviewRoutes } from '../features/overview/routes.ts';
import { planningRoutes } from '../features/planning/routes.ts';
import { recallRoutes } from '../features/recall/routes.ts';
import { replayRoutes } from '../features/replay/routes.ts';
import { retestRoutes } from '../features/retests/routes.ts';
import { reviewRoutes } from '../features/review/routes.ts';
import { ruleSetRoutes } from '../features/rule-sets/routes.ts';
import { samplingRoutes } from '../features/sampling/routes.ts';
import { signalRoutes } from '../features/signals/routes.ts';
import { visitRoutes } from '../features/visits/routes.ts';
import { schedulingRoutes } from '../features/scheduling/routes.ts';
import type { PageRoute } from '../lib/page-route.ts';

/** Every page of the service behind the entrance. A feature brings its own list. */
export const pageRoutes: PageRoute[] = [
  ...overviewRoutes,
  ...accountRoutes,
  ...fieldworkRoutes,
  ...figuresRoutes,
  ...builderDeskRoutes,
  ...houseRoutes,
  ...visitRoutes,
  ...planningRoutes,
  ...schedulingRoutes,
  ...failedItemRoutes,
  ...reviewRoutes,
  ...eventLogRoutes,
  ...fileReviewRoutes,
  ...retestRoutes,
  ...correctiveActionRoutes,
  ...builderRoutes,
  ...installerRoutes,
  ...instrumentRoutes,
  ...ruleSetRoutes,
  ...replayRoutes,
  ...recallRoutes,
  ...samplingRoutes,
  ...batchRoutes,
  ...signalRoutes,
  ...calculatorRoutes,
  ...administrationRoutes,
];
