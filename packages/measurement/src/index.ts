export * from './quantities.ts';
export * from './types.ts';
export { type Checked } from './outcome.ts';
export { convert } from './units/convert.ts';
export { type ConvertibleUnit } from './units/unit-table.ts';
export { displayUnit, format, fromDisplay, toDisplay } from './units/display.ts';
export { type ParsedEntry, parseEntry } from './units/parse-entry.ts';
export { plainNumber, roundTo } from './units/round.ts';
export { powerLawFlow } from './flow/power-law.ts';
export { type FlowWithStep, rangeFlow } from './flow/range-flow.ts';
export { type FlowAtReference, flowAtReference, type ReferenceTarget } from './flow/flow-at-reference.ts';
export { type FlowPart, type FlowSum, sumFlows } from './flow/sum.ts';
export { airChangesPerHour, cfmPer100ft2 } from './flow/rates.ts';
export { magnitude, ratioToReported } from './pressure/signs.ts';
export { inducedPressure, largestBaselinePa, meanBaseline } from './pressure/baseline.ts';
export { openingFlow, orificeCoefficient, predictedPressure, requiredFreeArea } from './pressure/opening.ts';
export { airFreeCarbonMonoxide, mostOxygen, oxygenInAir } from './combustion/air-free.ts';
export { fitLine, type LineFit, type LinePoint } from './fit/line.ts';
export { fitPowerLaw, type FlowPoint, type PowerLawFit } from './fit/power-law-fit.ts';
export {
  coverageFactor,
  coverageLevel,
  type StatedUncertainty,
  statedUncertainty,
  studentFactor,
} from './uncertainty/coverage.ts';
export { type Distribution, fromHalfWidth } from './uncertainty/distributions.ts';
export { type DrawnInput, monteCarlo, type Simulated } from './uncertainty/monte-carlo.ts';
export { type Propagated, propagate, type UncertainInput } from './uncertainty/propagate.ts';
export { accuracyLimit, powerUncertainty, standardUncertainty } from './uncertainty.ts';
export { nativeUnit } from './instruments/native-unit.ts';
export {
  type CalibrationState,
  calibrationState,
  calibrationStateFor,
  kindsWithoutCalibration,
} from './instruments/calibration-state.ts';
export { fieldProblem } from './entry/field-problem.ts';
export { choiceProblem } from './entry/choice-problem.ts';
export { instrumentProblem, instrumentWords } from './entry/instrument-problem.ts';
export { ductTarget } from './tests/duct-leakage.ts';
export { ductToHouseWithin } from './tests/duct-leakage-outdoors.ts';
export { envelopeTarget, exponentRange, fewestFitPoints, leastRSquared } from './tests/envelope-results.ts';
export { testDefinition, testDefinitions } from './tests/registry.ts';
export { type Chances, chanceBeyond, type HeldAgainst } from './decision/chance.ts';
export {
  type AcceptanceLimits,
  guardBandLimits,
  guardBandRisk,
  guardedShare,
} from './decision/guard-band.ts';
export { globalRisk, type RiskGiven, type Risks } from './decision/risk.ts';
export { atmosphereSpan, standardPressure } from './air/standard-atmosphere.ts';
export { saturationPressure } from './air/water-vapor.ts';
export {
  type AirDensity,
  type AirState,
  airDensity,
  airDensityAtAltitude,
  airTemperatureSpan,
  barometricSpan,
  standardAirDensity,
} from './air/density.ts';
export { type DensityForm, methodAirDensity } from './air/e779.ts';
export { type CurvePoint, monotoneCurve, type MonotoneCurve } from './flow/monotone-curve.ts';
export { tableFlow, type TableFlow, type TablePoint } from './flow/table-flow.ts';
export { boundedRangeFlow, type BoundedFlow } from './flow/bounded-range-flow.ts';
export {
  type BoundedReading,
  boundedReading,
  type Interval,
  intervalAgainst,
} from './instruments/bounded-reading.ts';
export {
  type BudgetLine,
  type BudgetPart,
  errorBudget,
  type ErrorBudget,
} from './instruments/error-budget.ts';
export {
  fanFlowBudget,
  type FanFlowBudget,
  type MoreOfAFan,
  type MoreOfAReading,
  readingBudget,
} from './instruments/device-budget.ts';
