export * from './types.ts';
export { assess, type Assessment } from './assess.ts';
export { qualifications, visitEffort, type Qualification, type VisitNeeds } from './effort/index.ts';
export { fileProblems } from './consistency.ts';
export { buildFacts } from './facts/index.ts';
export { governing, measureReadings, type ReadingOutcome } from './measure.ts';
export { orderOfWork, type OrderedWork, type Stretch, type Work } from './order/index.ts';
export { proposedOrder, testsOpen, type OpenTest } from './open.ts';
export { itemsToRevisit, type Revisit } from './revisit.ts';
export { houseId, subjectsOf, ventilatorHasDucts, ventilatorId, type Subject } from './subjects.ts';
export {
  withError,
  withoutError,
  type Corrected,
  type InstrumentError,
  type Recall,
  type RecalledReading,
} from './recall.ts';
export { recallOutcome, type Flip, type ReadingChange, type RecallOutcome } from './recall-flips.ts';
export { recallProblem } from './recall-problem.ts';
export { inScope, type VisitScope } from './visit-scope.ts';
export { replayFacts, type ReplayFacts } from './replay-facts.ts';
export { instrumentErrorWords } from './recall-words.ts';
