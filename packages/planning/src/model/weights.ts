import type { PlanWeights } from './problem.ts';

/**
 * The usual weights, in minutes of driving. Leaving out a visit costs more than any driving could save; an
 * avoided rater is worth an hour on the road, a day of waiting ten minutes; among promises a new time is
 * less of a change for a builder than a new day. Own choice, no published source: they are data, and an
 * office may set others.
 */
export const usualWeights: PlanWeights = {
  driveMinute: 1,
  distance: 0,
  unplaced: 10_000,
  avoidedRater: 60,
  waitingDay: 10,
  overShareMinute: 0.25,
  farOverShareMinute: 0.5,
  movedRater: 90,
  movedDay: 240,
  movedLater: 60,
  promiseTolerance: 15,
};

/** Distance only, as the published instances of vehicle routing are compared: never with vehicles first. */
export const distanceFirst: PlanWeights = {
  driveMinute: 0,
  distance: 1,
  unplaced: 1_000_000,
  avoidedRater: 0,
  waitingDay: 0,
  overShareMinute: 0,
  farOverShareMinute: 0,
  movedRater: 0,
  movedDay: 0,
  movedLater: 0,
  promiseTolerance: 0,
};
