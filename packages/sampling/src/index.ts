/** Which files and houses are looked at again, by a draw that anybody can repeat. */
export * from './source-mark.ts';
export * from './draw/commitment.ts';
export * from './draw/draw.ts';
export * from './draw/frame.ts';
export { type TextHasher } from './draw/hash.ts';
export * from './draw/method.ts';
export * from './draw/record.ts';
export * from './draw/repeat.ts';
export { type Stratum } from './draw/stratified.ts';
export * from './planning/bounds.ts';
export * from './planning/detection.ts';
export * from './planning/estimate.ts';
export * from './planning/lots/plan.ts';
export * from './planning/lots/switching.ts';
export {
  inspectionLevels,
  qualityLimits,
  severities as inspectionSeverities,
  type InspectionLevel,
  type QualityLimit,
  type Severity,
} from './planning/lots/tables.ts';
export * from './planning/sequential.ts';
export * from './obligations/meter.ts';
export * from './obligations/shares.ts';
export * from './batches/order.ts';
export * from './batches/rules.ts';
export * from './batches/state.ts';
export * from './waiting/kaplan-meier.ts';
