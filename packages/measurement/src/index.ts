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
export { type FlowPart, type FlowSum, type SharedErrors, sumFlows } from './flow/sum.ts';
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
export { ductExponentWithin, ductGauge, ductTarget } from './tests/duct-leakage.ts';
export { ductToHouseWithin } from './tests/duct-leakage-outdoors.ts';
export { envelopeTarget, exponentRange, fewestFitPoints, leastRSquared } from './tests/envelope-results.ts';
export { testOutlines, type TestOutline } from './tests/outline.ts';
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
export { tableDoubts, tableProblem, type TableDoubt } from './flow/table-problem.ts';
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
export { type FigureSource } from './working/figure-source.ts';
export { type Uncertainties } from './working/input.ts';
export { type Worked, type WorkingLine } from './working/worked.ts';
export {
  type FlowOfForm,
  type VentilationEdition,
  ventilationEditions,
  type VentilationFlow,
  type VentilationForm,
} from './ventilation/form.ts';
export { type Dwelling, requiredRateInchPound, requiredRateSi } from './ventilation/required-rate.ts';
export {
  ircRateTable,
  type RateTable,
  rateTable2013,
  type TableRate,
  tableRate,
} from './ventilation/rate-tables.ts';
export { intermittentFactor, intermittentFactors, intermittentRate } from './ventilation/intermittent.ts';
export { type Cycle, intermittentEffectiveness, intermittentFlow } from './ventilation/effectiveness.ts';
export {
  infiltrationByStories,
  infiltrationInchPound,
  infiltrationSi,
  type LeakageAndHeight,
  type LeakageAndWeather,
  storyFactor,
} from './ventilation/infiltration.ts';
export {
  infiltrationByNormalizedLeakage,
  type LeakageArea,
  normalizedLeakage,
} from './ventilation/normalized-leakage.ts';
export {
  type CreditCase,
  type FanFlow,
  largestCreditNewHouse,
  requiredFanFlow,
} from './ventilation/fan-flow.ts';
export {
  type ExhaustCase,
  type LeastExhaust,
  leastExhaust,
  localExhaustFigures,
} from './ventilation/local-exhaust.ts';
export { infiltrationCredit2010, localExhaustDeficit, type RoomExhaust } from './ventilation/deficit.ts';
export { type Airstreams, airstreamBalance, type Balance } from './ventilation/balance.ts';
export {
  mechanicalCodeRules,
  needsMechanicalVentilation,
  rateForBalancedAndDistributed,
} from './ventilation/code-rules.ts';
export {
  type StaticDrop,
  type StaticProfile,
  staticProfile,
  type StaticReadings,
} from './pressure/static-profile.ts';
export {
  largestBaselineDriftPa,
  type SetUp,
  type WorstCase,
  worstCaseDepressurization,
  type WorstCaseReadings,
} from './pressure/worst-case.ts';
export {
  type Gate,
  type Grade,
  type GradeThresholds,
  grades310,
  type Span,
  tasks310,
} from './installation/thresholds.ts';
export { gradeAirflow, gradeDuctLeakage, type Graded, gradeFanWatts, gradeOf } from './installation/grade.ts';
export {
  type InstallationGrades,
  installationGrades,
  type InstallationTasks,
} from './installation/overall.ts';
export { type ChargeByPlate, chargeByWeight, gradeChargeByWeight } from './charge/weigh-in.ts';
export {
  type ChargeFinding,
  type ChargeMethod,
  chargeMethods,
  type ChargeReading,
  chargeTolerances,
  withinChargeTolerance,
} from './charge/tolerance.ts';
export {
  type CombustionAction,
  combustionCaution,
  type CombustionProtocol,
  combustionProtocols,
  type CombustionThreshold,
  type CompanyFigures,
} from './combustion/thresholds.ts';
export {
  depressurizationThresholds,
  flueCarbonMonoxideThresholds,
  spillageThresholds,
} from './combustion/appliance-figures.ts';
export { fuelGasThresholds, roomCarbonMonoxideThresholds } from './combustion/room-figures.ts';
export { type CombustionFinding, type ProtocolView } from './combustion/finding.ts';
export {
  judgeDepressurization,
  judgeFlueCarbonMonoxide,
  judgeSpillage,
} from './combustion/judge-appliance.ts';
export { judgeFuelGas, judgeRoomCarbonMonoxide } from './combustion/judge-room.ts';
export { drawsEnough, draftLineSource, type LeastDraft, leastDraft } from './combustion/draft.ts';
export { combustionAirVolume, leastAirChangesForVolumeRule } from './combustion/combustion-air.ts';
export {
  type CodeFigure,
  type CodeLimitKind,
  codeLimitKinds,
  type EnergyCodeEdition,
  energyCodeEditions,
} from './climate/code-figure.ts';
export { energyCodeFigures } from './climate/energy-code-figures.ts';
export { seenAmendments } from './climate/envelope-figures.ts';
export {
  type ClimateZone,
  type CodeLimit,
  codeLimit,
  type CodeLimitOptions,
  meetsCodeLimit,
  readClimateZone,
} from './climate/code-limit.ts';
export {
  type CorrectedFlow,
  correctForDensity,
  type FlowSensing,
  type FlowToCorrect,
} from './flow/density-correction.ts';
export {
  type MatchedFlow,
  matchPressure,
  type PressureMatch,
  type Throttling,
  undoThrottling,
  widestPressureMatch,
} from './flow/pressure-matching.ts';
export { type BuiltInFlow, type ConvertedFlow, flowOfOtherDevice } from './flow/other-device.ts';
export {
  type BudgetedFlow,
  budgetedFlowAtReference,
  exponentError,
  type ReferenceUncertainties,
} from './flow/reference-uncertainty.ts';
export {
  ductLeakageIndoors,
  ductLeakagePerFloorArea,
  ductLeakageShare,
  houseDuctLeakage,
  type HouseDucts,
} from './flow/duct-rates.ts';
export { fastFitAt, fastFitSize, fitPowerLawFast } from './fit/power-law-fast.ts';
export { fitEnvelopeTest } from './envelope/fit-envelope-test.ts';
export { envelopeFlowAt } from './envelope/figures.ts';
export { envelopeLimits } from './envelope/findings.ts';
export { leakageArea, leakageAreaForms } from './envelope/leakage-area.ts';
export {
  airViscosity,
  envelopeDensityCorrection,
  type EnvelopeDensityCorrection,
  throughEnvelopeFactor,
} from './envelope/density-correction.ts';
export {
  assumedExponent,
  onePointEnvelope,
  type OnePointResult,
  type OnePointTest,
} from './envelope/one-point.ts';
export type {
  BaselineSummary,
  Direction,
  DirectionFit,
  EnvelopeFigure,
  EnvelopeFit,
  EnvelopeReading,
  EnvelopeTest,
  Finding,
  FittedPoint,
  TestAir,
  Weighting,
} from './envelope/types.ts';
export { type RangeSpan, rangesForFlow, rangeSpans } from './flow/range-spans.ts';
export {
  compareReadings,
  compareSets,
  comparisonLimits,
  type PairComparison,
  type Reading,
  type ReadingPair,
  type SetComparison,
} from './decision/compare.ts';
