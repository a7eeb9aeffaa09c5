import { quantities } from '@countercheck/measurement';
import { expect, describe, it } from 'vitest';
import { compileRuleSet } from '../evaluate.ts';
import { casesOf, factsOf, itemOf, type Case } from '../test/cases.ts';
import { commonPractice, shippedVersions } from '../test/sets.ts';
import { guarded as withGuardBand } from '../test/told.ts';
import type { ItemVerdict } from '../types.ts';
import { verdictIn } from './in-units.ts';

const judge = compileRuleSet(commonPractice);
function verdict(item: string, given: Case['given']): ItemVerdict {
  const facts = factsOf({ case: '', given, expect: { status: 'pass' } }, itemOf(commonPractice, item));
  return judge(facts).verdicts.find((each) => each.item === item)!;
}
/** As it comes back from where it was kept. */
const kept = (given: ItemVerdict) => JSON.parse(JSON.stringify(given)) as ItemVerdict;

// Figures by hand: 1 cfm = 0.47194745 L/s, 1 in. w.c. = 249.08891 Pa (so 25 Pa = 0.100 in. w.c.), 1 in² = 6.4516 cm².
describe('a verdict in SI units', () => {
  it('says reading, limit and what it takes of a leakage: 260 cfm are 122.7 L/s, 240 are 113.27', () => {
    const said = verdictIn(
      kept(
        verdict('duct-leakage-total', {
          house: { conditionedFloorArea: 4000 },
          measured: { leakageAt25: 260 },
        }),
      ),
      'si',
    );
    expect(said.reason).toContain('122.7 L/s; limit 113.27 L/s (3.048 L/s per 10 m² of conditioned floor)');
    expect(said.headline!.needed).toBe('at most 113.27 L/s');
    // down, so that a reading that shows it passes; the change up: 20 cfm are 9.439 L/s
    expect(said.takes[0]!.words).toContain('at most 113.26 L/s, 9.44 L/s less than now');
    expect(said.trace.wouldChange.join()).toContain('at most 113.27 L/s');
  });

  it('says a share of a reported figure: 0.0936 in. w.c. are 23.3 Pa, 110.1 % of 21.17', () => {
    const { reason } = verdictIn(
      verdict('supply-static', { measured: { staticPressure: 0.0936 }, reported: { supplyStatic: 0.085 } }),
      'si',
    );
    expect(reason).toMatch(/^23\.3 Pa is 110\.1 % of the reported 21\.17; limit 110 %\.$/);
  });

  it('leaves what is shown alike, and the verdict itself', () => {
    const pressure = verdict('bedroom-pressure-relief', { measured: { pressure: 4 } });
    const said = verdictIn(pressure, 'si');
    expect(said.reason).toBe(pressure.reason);
    // the other way is an area: 100 in² are 645.16 cm²
    expect(said.takes[1]!.words).toMatch(/at least 645\.2 cm²/);
    expect(verdictIn(pressure, 'us')).toBe(pressure);
    expect({ ...said, takes: [], trace: null, headline: null }).toEqual({
      ...pressure,
      ...{ takes: [], trace: null, headline: null },
    });
  });

  it('leaves the words of a verdict that was kept before its parts were', () => {
    const old = kept(verdict('duct-leakage-total', { measured: { leakageAt25: 999 } }));
    const strip = (each: object) => delete (each as { said?: unknown }).said;
    [old.headline!, ...old.trace.options.flatMap(({ comparisons }) => comparisons)].forEach(strip);
    old.takes.forEach(({ reading }) => reading && delete reading.now);
    expect(verdictIn(old, 'si').reason).toBe(old.reason);
    expect(verdictIn(old, 'si').headline!.words).toBe(old.headline!.words);
  });
});

const usOnly = Object.values(quantities)
  .filter(({ us, si }) => us.label !== si.label)
  .map(({ us }) => us.label.replaceAll('.', String.raw`\.`));
const stored = new RegExp(String.raw`\d (?:${usOnly.join('|')})(?![\w²³])`);

describe('every shipped case', () => {
  it('is told without a figure in the units that the reader did not choose', () => {
    let numbers = 0;
    for (const version of shippedVersions) {
      const { set } = version;
      const evaluate = compileRuleSet(set);
      for (const { item, cases } of casesOf(version))
        for (const each of cases)
          for (const facts of [
            factsOf(each, itemOf(set, item)),
            withGuardBand(factsOf(each, itemOf(set, item))),
          ]) {
            const found = evaluate(facts).verdicts.find((one) => one.item === item)!;
            const { reason, takes, headline, trace } = verdictIn(kept(found), 'si');
            const texts = [
              reason,
              headline?.words ?? '',
              headline?.needed ?? '',
              ...takes.map(({ words }) => words),
              ...trace.wouldChange,
              ...trace.applies.map(({ words }) => words),
              ...trace.options.flatMap(({ comparisons }) => comparisons.map(({ words }) => words)),
            ];
            for (const text of texts) expect(text, `${item}, ${each.case}`).not.toMatch(stored);
            if (stored.test(found.reason)) numbers += 1;
          }
    }
    expect(numbers).toBeGreaterThan(100);
  });

  it('is told in stored units word for word as it was kept', () => {
    const evaluate = compileRuleSet(commonPractice);
    for (const { item, cases } of casesOf({ set: commonPractice, base: undefined }))
      for (const each of cases) {
        const found = evaluate(factsOf(each, itemOf(commonPractice, item))).verdicts;
        for (const one of found) expect(verdictIn(one, 'us')).toBe(one);
      }
  });
});
