export { checkOf, checkSchema, type AutomaticCheck, type Check, type Checklist } from './checklist.ts';
export { agreementOf, limitsOfAgreement, type Agreement, type Limits, type Result } from './agreement.ts';
export { cleanInARow, type FinishedReview } from './clean-files.ts';
export { figureDifferences, type FigureDifference, type ReadingFigures } from './figures.ts';
export type { Tolerance, Tolerances } from './tolerances.ts';
