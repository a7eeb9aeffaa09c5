import { describe, expect, it } from 'vitest';
import { RuleSetError, type LocatedProblem } from '../check/problem.ts';
import {
  commonPractice,
  companyStrict,
  energyCode,
  energyCodeAsFirst,
  shippedSets,
  textsOf,
} from '../test/sets.ts';
import { loadRuleSet, type TextFile } from './index.ts';
import { checkRuleSet } from '../check/index.ts';
import { ruleSetSchema } from '../schema/index.ts';

const texts = textsOf('common-practice', '2026.1');

function problemsOf(files: TextFile[]): readonly LocatedProblem[] {
  try {
    loadRuleSet(files);
  } catch (error) {
    if (error instanceof RuleSetError) return error.problems;
    throw error;
  }
  return [];
}

function withEdit(file: string, from: string, to: string): TextFile[] {
  return texts.map((each) => {
    if (!each.path.endsWith(`/${file}`)) return each;
    expect(each.text).toContain(from);
    return { ...each, text: each.text.replace(from, to) };
  });
}

describe('the shipped sets', () => {
  it('load, keep to the schema and survive JSON', () => {
    for (const set of shippedSets) {
      expect(checkRuleSet(set)).toEqual([]);
      expect(ruleSetSchema.parse(JSON.parse(JSON.stringify(set)))).toEqual(set);
    }
  });

  it('keep the order of set.yaml and do not hang on the order of the folder', () => {
    expect(commonPractice.items.map((each) => each.item).slice(0, 3)).toEqual([
      'supply-static',
      'return-static',
      'bedroom-pressure-relief',
    ]);
    expect(loadRuleSet([...texts].reverse())).toEqual(commonPractice);
  });

  it('inherit what they do not change', () => {
    const limit = (set: typeof commonPractice, item: string) =>
      set.items.find((each) => each.item === item)?.limit;
    expect(limit(companyStrict, 'duct-leakage-total')).toEqual({
      kind: 'per-area',
      value: 4,
      unit: 'cfm/100ft2',
    });
    expect(limit(companyStrict, 'return-static')).toEqual(limit(commonPractice, 'return-static'));
    expect(companyStrict.items).toHaveLength(commonPractice.items.length);
    expect(energyCode.items.some((each) => each.item === 'supply-static')).toBe(false);
    expect(energyCode.items.some((each) => each.item === 'duct-leakage-rough')).toBe(true);
  });
});

describe('the second version of the energy code', () => {
  it('confirms the envelope’s limits and changes nothing that decides', () => {
    const envelope = (set: typeof energyCode) => set.items.find(({ item }) => item === 'envelope-leakage')!;
    expect(envelope(energyCodeAsFirst).source.confirmed).toBe(false);
    expect(envelope(energyCode).source).toMatchObject({ kind: 'published', confirmed: true });
    const deciding = (set: typeof energyCode) =>
      set.items.map(({ source: _source, note: _note, ...rest }) => rest);
    expect(deciding(energyCode)).toEqual(deciding(energyCodeAsFirst));
  });
});

/** `at`: words of the line that the message has to point to */
interface Wanted {
  field: string;
  message: RegExp;
  at: string;
}

describe('a broken set names file, line and field', () => {
  const cases: [string, string, string, string, Wanted][] = [
    [
      'an unknown field',
      'duct-leakage-total.yaml',
      'safety: false',
      'safty: false',
      { at: 'safty', field: 'safty', message: /nobody knows/ },
    ],
    [
      'an unknown quantity',
      'duct-leakage-total.yaml',
      'measured.leakageAt25',
      'measured.leakage',
      { at: 'measured.leakage,', field: 'options.0.require.0.quantity', message: /leakage/ },
    ],
    [
      'a unit that does not match',
      'supply-static.yaml',
      "unit: '%'",
      'unit: Pa',
      { at: 'unit: Pa', field: 'limit.unit', message: /Pa.*%/ },
    ],
    [
      'an unknown test',
      'supply-static.yaml',
      '[supply-static]',
      '[supply-statik]',
      { at: 'supply-statik', field: 'tests.0', message: /./ },
    ],
    [
      'a zone without a limit',
      'envelope-leakage.yaml',
      "'7': 4, ",
      '',
      { at: 'zones:', field: 'limit.zones', message: /zone 7/ },
    ],
    [
      'a missing source',
      'kitchen-exhaust.yaml',
      'source:',
      'sauce:',
      { at: 'item: kitchen', field: 'source', message: /missing/ },
    ],
    [
      'an unknown check',
      'kitchen-exhaust.yaml',
      'at-least',
      'roughly',
      { at: 'roughly', field: 'options.0.require.0.check', message: /none of the known/ },
    ],
    [
      'text instead of a number',
      'kitchen-exhaust.yaml',
      'value: 100',
      'value: lots',
      { at: 'lots', field: 'limit.value', message: /number/ },
    ],
    [
      'a figure of another subject',
      'supply-static.yaml',
      'reported.supplyStatic',
      'reported.exhaustFlow',
      { at: 'of: reported.exhaustFlow', field: 'options.0.require.0.of', message: /not known of a system/ },
    ],
    [
      'a factor of nothing',
      'duct-leakage-outdoors.yaml',
      'item: envelope-leakage,',
      'item: envelope,',
      { at: 'item: envelope,', field: 'exemptions.1.require.1.limit.item', message: /not an item/ },
    ],
    [
      'a key twice in one file',
      'bath-exhaust.yaml',
      'stage: final',
      'stage: final\nstage: rough',
      { at: 'stage: rough', field: '', message: /unique/ },
    ],
    [
      'a word that a fact cannot be',
      'spillage.yaml',
      'value: atmospheric',
      'value: chimney',
      { at: 'chimney', field: 'appliesWhen.0.value', message: /none of/ },
    ],
    [
      'a file for another item',
      'spillage.yaml',
      'item: spillage',
      'item: spills',
      { at: 'item: spills', field: 'item', message: /called/ },
    ],
  ];
  it.each(cases)('%s', (_name, file, from, to, wanted) => {
    const files = withEdit(file, from, to);
    const problem = problemsOf(files).find(
      (each) => each.field === wanted.field && wanted.message.test(each.message),
    );
    expect(problem?.file).toContain(file);
    const text = files.find((each) => each.path.endsWith(`/${file}`))!.text.split('\n');
    const at = text.findIndex((line) => line.includes(wanted.at)) + 1;
    expect(problem?.line).toBe(at);
  });

  it('also when a file is missing, listed twice or broken YAML', () => {
    expect(problemsOf(texts.slice(1))[0]?.message).toMatch(/no file for/);
    expect(problemsOf([...texts, texts[0]!])[0]?.message).toMatch(/two files/);
    expect(problemsOf(texts.filter((each) => !each.path.endsWith('set.yaml')))[0]?.file).toBe('set.yaml');
    expect(problemsOf(withEdit('spillage.yaml', 'tests: [spillage]', 'tests: [spillage'))[0]?.file).toContain(
      'spillage',
    );
    expect(problemsOf(withEdit('spillage.yaml', 'safety: true', 'safety: true\ncautions: *a'))).not.toEqual(
      [],
    );
  });

  it('an heir needs the set that it inherits from', () => {
    const heir = textsOf('company-strict', '2026.1');
    expect(problemsOf(heir)[0]).toMatchObject({
      field: 'inherits',
      file: expect.stringContaining('set.yaml'),
    });
    expect(() => loadRuleSet(heir, energyCode)).toThrow(/was given energy-code-2018/);
    const broken = heir.map((each) => ({
      ...each,
      text: each.text.replace('value: 105', 'value: 105, extra: 1'),
    }));
    expect(() => loadRuleSet(broken, commonPractice)).toThrow(/supply-static.yaml:3: changes.limit.extra/);
    const wrongUnit = heir.map((each) => ({
      ...each,
      text: each.text.replace("105, unit: '%'", '105, unit: Pa'),
    }));
    expect(() => loadRuleSet(wrongUnit, commonPractice)).toThrow(/supply-static.yaml:3: changes.limit.unit/);
  });
});
