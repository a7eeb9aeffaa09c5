import type { FastifyInstance } from 'fastify';
import { serviceFeature } from './service/index.ts';
import { mailDeliveryFeature } from './mail-delivery/index.ts';
import { administrationFeature } from './administration/index.ts';
import { buildersFeature } from './builders/index.ts';
import { ruleSetsFeature } from './rule-sets/index.ts';
import { sessionFeature } from './session/index.ts';
import { housesFeature } from './houses/index.ts';
import { installersFeature } from './installers/index.ts';
import { instrumentsFeature } from './instruments/index.ts';
import { visitsFeature } from './visits/index.ts';
import { schedulingFeature } from './scheduling/index.ts';
import { failedItemsFeature } from './failed-items/index.ts';
import { fieldworkFeature } from './fieldwork/index.ts';
import { photosFeature } from './photos/index.ts';
import { planningFeature } from './planning/index.ts';
import { replayFeature } from './replay/index.ts';
import { recallFeature } from './recall/index.ts';
import { reviewFeature } from './review/index.ts';
import { eventLogFeature } from './event-log/index.ts';
import { samplingFeature } from './sampling/index.ts';
import { signalsFeature } from './signals/index.ts';

/** One folder a feature; each registers the routes of its contract. */
export async function features(app: FastifyInstance): Promise<void> {
  await app.register(sessionFeature);
  await app.register(ruleSetsFeature);
  await app.register(serviceFeature);
  await app.register(mailDeliveryFeature);
  await app.register(administrationFeature);
  await app.register(buildersFeature);
  await app.register(housesFeature);
  await app.register(installersFeature);
  await app.register(instrumentsFeature);
  await app.register(visitsFeature);
  await app.register(schedulingFeature);
  await app.register(planningFeature);
  await app.register(failedItemsFeature);
  await app.register(fieldworkFeature);
  await app.register(photosFeature);
  await app.register(reviewFeature);
  await app.register(eventLogFeature);
  await app.register(samplingFeature);
  await app.register(replayFeature);
  await app.register(recallFeature);
  await app.register(signalsFeature);
}
