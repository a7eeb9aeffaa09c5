export * from './model/problem.ts';
export { distanceFirst, usualWeights } from './model/weights.ts';
export {
  type Coordinates,
  emptyTravel,
  kilometresBetween,
  travelFromCoordinates,
  type TravelAssumptions,
} from './model/travel.ts';
export type * from './solution/plan.ts';
export { type Choice, choices } from './solution/why.ts';
export { unplacedWords } from './solution/reasons.ts';
export { type SearchLimits, type SearchProgress } from './solver/search.ts';
export { faults } from './check/check.ts';
export { plan } from './solve.ts';
