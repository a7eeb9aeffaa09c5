import { testDefinitions, type TestKey } from '@countercheck/measurement';
import {
  derivedResults,
  reportedFigures,
  type Facts,
  type Measured,
  type RuleSet,
  type SubjectFacts,
} from '@countercheck/rules';
import { flatName } from './expression.ts';

/** One house in both forms: as this service sees it, and as a flat record for the other engines. */
export interface House {
  facts: Facts;
  flat: Record<string, number | string | boolean>;
}

/** A generator of numbers from 0 to 1 that gives the same ones for the same seed (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Where a result lies, so that each item passes and fails often. */
const ranges: Record<string, [number, number]> = {
  staticPressure: [0.06, 0.12],
  pressure: [0, 6],
  freeAreaPerFlow: [0.5, 1.6],
  leakageAt25: [20, 240],
  airChangesAt50: [1, 7],
  supplyFlow: [60, 95],
  exhaustFlow: [60, 95],
  intermittentFlow: [20, 180],
  continuousFlow: [5, 40],
  carbonMonoxide: [0, 50],
  depressurization: [0, 8],
  spillageTime: [0, 120],
  carbonMonoxideAirFree: [0, 600],
  carbonMonoxideAsMeasured: [0, 300],
};

type Pick = <T>(values: readonly T[]) => T;

function measuredOf(test: TestKey, keys: readonly string[], random: () => number): Measured {
  const values: Measured['values'] = {};
  for (const key of keys) {
    const [low, high] = ranges[key] ?? [0, 100];
    const value = key === 'stillSpilling' ? Number(random() < 0.3) : low + (high - low) * random();
    const standardUncertainty = value * 0.02;
    values[key] = {
      key,
      label: key,
      quantity: 'count',
      value,
      unit: '1',
      standardUncertainty,
      expandedUncertainty: 2 * standardUncertainty,
      coverageFactor: 2,
    };
  }
  return { values, counts: true, whyNot: null, remarks: [], steps: [], readingIds: [`${test}-1`] };
}

function subjectFactsOf(kind: SubjectFacts['kind'], random: () => number, pick: Pick): SubjectFacts['facts'] {
  if (kind === 'system') return { hasDucts: random() < 0.9, ductsInside: random() < 0.5 };
  if (kind === 'ventilator') return { ducted: random() < 0.8 };
  if (kind !== 'appliance') return {};
  return {
    applianceKind: pick(['furnace', 'boiler', 'water-heater', 'fireplace', 'room-heater', 'range', 'dryer']),
    fuel: pick(['natural-gas', 'propane', 'oil', 'electric']),
    venting: pick(['atmospheric', 'direct-vent']),
  };
}

/** One complete random house: nothing is missing, so that every verdict is pass, fail, exempt or not applicable. */
export function randomHouse(set: RuleSet, random: () => number): House {
  const pick: Pick = (values) => values[Math.floor(random() * values.length)]!;
  const house: Facts['house'] = {
    conditionedFloorArea: 1000 + Math.floor(random() * 3000),
    conditionedVolume: 8000 + Math.floor(random() * 24_000),
    climateZone: pick(['1A', '2B', '3C', '4A', '5A', '6B', '7', '8']),
    ventilationKind: pick(['balanced', 'exhaust', 'supply']),
    ventilatorDucted: random() < 0.5,
    designedVentilation: 70,
    hasDucts: random() < 0.9,
    allDuctsInside: random() < 0.5,
    hasAtmosphericAppliance: random() < 0.5,
    hasFireplace: random() < 0.3,
    hasUnventedAppliance: random() < 0.2,
  };
  const flat: House['flat'] = {};
  for (const [key, value] of Object.entries(house)) flat[flatName('house', key)] = value!;
  const kinds = [...new Set(set.items.map((each) => each.subject))];
  const measured: Facts['measured'] = {};
  const subjects = kinds.map((kind): SubjectFacts => {
    const reported: SubjectFacts['reported'] = {};
    for (const { key, subject } of reportedFigures)
      if (subject === kind) reported[key] = 0.07 + 0.03 * random();
    const facts = subjectFactsOf(kind, random, pick);
    for (const [key, value] of Object.entries(facts)) flat[flatName('subject', kind, key)] = value!;
    for (const [key, value] of Object.entries(reported)) flat[flatName('reported', kind, key)] = value!;
    const id = kind === 'house' ? 'house' : `the-${kind}`;
    return { id, kind, label: kind, facts, reported, reportedHidden: false };
  });
  for (const { tests, subject: kind } of set.items)
    for (const test of tests) {
      const own = testDefinitions[test].subject === kind ? testDefinitions[test].gives : [];
      const derived = kind === 'house' ? (derivedResults[test] ?? []) : [];
      const keys = [...own, ...derived].map((each) => each.key);
      if (keys.length === 0 || measured[test]) continue;
      const made = measuredOf(test, keys, random);
      measured[test] = { [subjects.find((each) => each.kind === kind)!.id]: made };
      for (const [key, each] of Object.entries(made.values))
        flat[flatName('measured', kind, test, key)] = each.value;
    }
  return { facts: { house, subjects, measured }, flat };
}
