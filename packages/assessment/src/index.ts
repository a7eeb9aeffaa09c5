export * from './types.ts';
export { assess, type Assessment } from './assess.ts';
export { fileProblems } from './consistency.ts';
export { buildFacts } from './facts/index.ts';
export { measureReadings, type ReadingOutcome } from './measure.ts';
export { proposedOrder, testsOpen, type OpenTest } from './open.ts';
export { itemsToRevisit, type Revisit } from './revisit.ts';
export { houseId, subjectsOf, ventilatorHasDucts, ventilatorId, type Subject } from './subjects.ts';
