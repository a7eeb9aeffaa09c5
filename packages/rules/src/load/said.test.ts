import { describe, expect, it } from 'vitest';
import { RuleSetError } from '../check/problem.ts';
import type { RuleSet } from '../schema/index.ts';
import { loadRuleSet, parseText, type TextFile } from './index.ts';

const setText = `key: tiny
version: '1'
title: A tiny set
description: Two items to try the loader on
effective: '2026-01-01'
published: true
items:
  - duct-leakage-total
  - bath-exhaust
`;

const ductText = `item: duct-leakage-total
title: Total duct leakage
stage: final
subject: house
tests: [duct-leakage-total]
limit: { kind: per-area, value: 6, unit: cfm/100ft2 }
options:
  - option: total
    title: All systems together
    require:
      - { quantity: measured.leakageAt25, check: at-most }
source: { kind: common-practice, citation: no published source, confirmed: false }
correction: Seal the joints.
trade: hvac-installer
cautions: []
safety: false
`;

const bathText = `item: bath-exhaust
title: Bath exhaust
stage: final
subject: bath
tests: [bath-exhaust]
options:
  - option: intermittent
    title: Switched fan
    require:
      - quantity: measured.intermittentFlow
        check: at-least
        limit: { kind: constant, value: 50, unit: cfm }
source: { kind: common-practice, citation: no published source, confirmed: false }
correction: Free the duct.
trade: electrician
cautions: []
safety: false
`;

const heirText = `key: heir
version: '2'
title: An heir
description: It changes one limit of the tiny set
effective: '2026-02-01'
published: false
inherits: { key: tiny, version: '1' }
`;

const changeText = `item: bath-exhaust
changes:
  title: Bath exhaust, quicker
`;

const file = (path: string, text: string): TextFile => ({ path, text });
const set = (text = setText) => file('tiny/set.yaml', text);
const duct = (text = ductText) => file('tiny/duct-leakage-total.yaml', text);
const bath = (text = bathText) => file('tiny/bath-exhaust.yaml', text);
const heir = (text = heirText) => file('heir/set.yaml', text);
const change = (text = changeText) => file('heir/bath-exhaust.yaml', text);

/** The refusal's own text, a line a problem; empty when the set loads. */
function said(files: TextFile[], base?: RuleSet): string {
  try {
    loadRuleSet(files, base);
  } catch (error) {
    if (error instanceof RuleSetError) return error.message;
    throw error;
  }
  return '';
}

const tiny = loadRuleSet([set(), duct(), bath()]);

describe('a set that loads', () => {
  it('has its header and its items in the order of set.yaml, and nothing of the loader', () => {
    expect(Object.keys(tiny)).toEqual([
      'key',
      'version',
      'title',
      'description',
      'effective',
      'published',
      'items',
    ]);
    expect(tiny.items.map(({ item }) => item)).toEqual(['duct-leakage-total', 'bath-exhaust']);
  });

  it('may be listed in any order, with the separators of any system and either ending', () => {
    const elsewhere = [
      file('C:\\sets\\tiny\\bath-exhaust.yml', bathText),
      file('C:\\sets\\tiny\\set.yaml', setText),
      file('C:\\sets\\tiny\\duct-leakage-total.yaml', ductText),
    ];
    expect(loadRuleSet(elsewhere)).toEqual(tiny);
  });

  it('needs no list of items, and then has them by the names of their files', () => {
    const unlisted = setText.replace(/items:[^]*/, '');
    const items = loadRuleSet([set(unlisted), duct(), bath()]).items.map(({ item }) => item);
    expect(items).toEqual(['bath-exhaust', 'duct-leakage-total']);
    expect(loadRuleSet([duct(), bath(), set(unlisted)]).items.map(({ item }) => item)).toEqual(items);
  });
});

describe('an heir', () => {
  const of = (files: TextFile[]) => loadRuleSet(files, tiny);

  it('keeps what it does not name, in the order that it inherited', () => {
    const found = of([heir(), change()]);
    expect(found).toMatchObject({ key: 'heir', version: '2', inherits: { key: 'tiny', version: '1' } });
    expect(found.items[0]).toEqual(tiny.items[0]);
    expect(found.items[1]).toEqual({ ...tiny.items[1], title: 'Bath exhaust, quicker' });
  });

  it('may take an inherited item’s place with a whole one, which stays where it was', () => {
    const whole = ductText.replace('value: 6', 'value: 4');
    const found = of([heir(), file('heir/duct-leakage-total.yaml', whole)]);
    expect(found.items.map(({ item }) => item)).toEqual(['duct-leakage-total', 'bath-exhaust']);
    expect(found.items[0]!.limit).toEqual({ kind: 'per-area', value: 4, unit: 'cfm/100ft2' });
  });

  it('leaves out what it says, and puts what is new behind, listed ones first', () => {
    const kitchen = bathText.replaceAll('bath', 'kitchen').replaceAll('Bath', 'Kitchen');
    const supply = ductText.replaceAll('duct-leakage-total', 'duct-leakage-rough');
    const header = `${heirText}without: [bath-exhaust]\nitems: [kitchen-exhaust, duct-leakage-rough]\n`;
    const found = of([
      heir(header),
      file('heir/kitchen-exhaust.yaml', kitchen),
      file('heir/duct-leakage-rough.yaml', supply),
    ]);
    expect(found.items.map(({ item }) => item)).toEqual([
      'duct-leakage-total',
      'kitchen-exhaust',
      'duct-leakage-rough',
    ]);
    expect(found).not.toHaveProperty('without');
  });
});

describe('a refusal names the file, the line, the field and what is wrong', () => {
  const edit = (text: string, from: string, to: string) => {
    expect(text).toContain(from);
    return text.replace(from, to);
  };

  it.each<[string, TextFile[], string]>([
    ['no set.yaml', [duct(), bath()], 'set.yaml:1: the file is missing'],
    [
      'a set without a version',
      [set(edit(setText, `version: '1'\n`, '')), duct(), bath()],
      'tiny/set.yaml:1: version: is missing',
    ],
    [
      'a header and an item that are both broken',
      [
        set(edit(setText, 'published: true', 'published: soon')),
        duct(edit(ductText, 'final', 'late')),
        bath(),
      ],
      [
        'tiny/set.yaml:6: published: Invalid input: expected boolean, received string',
        'tiny/duct-leakage-total.yaml:3: stage: Invalid option: expected one of "rough"|"final"',
      ].join('\n'),
    ],
    [
      'two fields that nobody knows',
      [set(), duct(`${ductText}colour: red\nsize: 3\n`), bath()],
      [
        'tiny/duct-leakage-total.yaml:17: colour: nobody knows this field',
        'tiny/duct-leakage-total.yaml:18: size: nobody knows this field',
      ].join('\n'),
    ],
    [
      'a check that is not in the vocabulary',
      [set(), duct(edit(ductText, 'check: at-most', 'check: about')), bath()],
      'tiny/duct-leakage-total.yaml:11: options.0.require.0.check: is none of the known kinds',
    ],
    [
      'an item that the list names and no file has',
      [set(edit(setText, '  - bath-exhaust\n', '  - bath-exhaust\n  - kitchen-exhaust\n')), duct(), bath()],
      'tiny/set.yaml:10: items.2: there is no file for "kitchen-exhaust"',
    ],
    [
      'an item that the list does not name',
      [set(edit(setText, '  - bath-exhaust\n', '')), duct(), bath()],
      'tiny/bath-exhaust.yaml:1: item: "bath-exhaust" is not in the list of items of set.yaml',
    ],
    [
      'an item in two files',
      [set(), duct(), bath(), file('tiny/more/bath-exhaust.yaml', bathText)],
      'tiny/more/bath-exhaust.yaml:1: item: "bath-exhaust" stands in two files',
    ],
    [
      'a file that is called otherwise than its item',
      [set(), duct(), file('tiny/bath.yaml', bathText)],
      'tiny/bath.yaml:1: item: the file is called "bath", its item "bath-exhaust"',
    ],
    [
      'a change of something that is not inherited',
      [set(), duct(), file('tiny/bath-exhaust.yaml', changeText)],
      'tiny/bath-exhaust.yaml:1: item: "bath-exhaust" is changed but not inherited',
    ],
    [
      'a field twice',
      [set(), duct(edit(ductText, 'stage: final', 'stage: final\nstage: rough')), bath()],
      'tiny/duct-leakage-total.yaml:4: Map keys must be unique',
    ],
    [
      'a tag of another program',
      [set(), duct(edit(ductText, 'title: Total', 'title: !shout Total')), bath()],
      'tiny/duct-leakage-total.yaml:2: Unresolved tag: !shout',
    ],
    [
      'an alias, which would hide what a limit is',
      [
        set(),
        duct(
          edit(ductText, 'title: Total', 'title: &a Total').replace(
            'correction: Seal the joints.',
            'correction: *a',
          ),
        ),
        bath(),
      ],
      'tiny/duct-leakage-total.yaml:1: aliases are not allowed',
    ],
    [
      'a limit in another unit than the reading',
      [set(), duct(), bath(edit(bathText, 'unit: cfm', 'unit: Pa'))],
      'tiny/bath-exhaust.yaml:12: options.0.require.0.limit.unit: the limit is in Pa, the quantity in cfm',
    ],
    [
      'a file that is a list',
      [set(), duct('- one\n'), bath()],
      'tiny/duct-leakage-total.yaml:1: Invalid input: expected object, received array',
    ],
    [
      'an empty file',
      [set(), duct(''), bath()],
      'tiny/duct-leakage-total.yaml:1: Invalid input: expected object, received null',
    ],
  ])('%s', (_name, files, text) => {
    expect(said(files)).toBe(text);
  });

  it.each<[string, TextFile[], RuleSet | undefined, string]>([
    [
      'an heir without the set that it inherits from',
      [heir(), change()],
      undefined,
      'heir/set.yaml:7: inherits: needs tiny 1, which was not given',
    ],
    [
      'an heir with another version of it',
      [heir(), change()],
      { ...tiny, version: '1.1' },
      'heir/set.yaml:7: inherits: needs tiny 1, was given tiny 1.1',
    ],
    [
      'an heir with another set',
      [heir(), change()],
      { ...tiny, key: 'small' },
      'heir/set.yaml:7: inherits: needs tiny 1, was given small 1',
    ],
    [
      'an heir that leaves out what is not there',
      [heir(`${heirText}without: [spillage]\n`)],
      tiny,
      'heir/set.yaml:8: without: "spillage" is left out but not inherited',
    ],
    [
      'an heir that leaves out everything',
      [heir(`${heirText}without: [bath-exhaust, duct-leakage-total]\n`)],
      tiny,
      'heir/set.yaml:1: items: the set has no items',
    ],
    [
      'a change that does not suit the inherited rest',
      [heir(), change('item: bath-exhaust\nchanges:\n  subject: kitchen\n')],
      tiny,
      'heir/bath-exhaust.yaml:2: changes.options.0.require.0.quantity: none of the tests bath-exhaust gives a kitchen "intermittentFlow"',
    ],
    [
      'a change of a field that there is not',
      [heir(), change('item: bath-exhaust\nchanges:\n  titel: Bath\n')],
      tiny,
      'heir/bath-exhaust.yaml:3: changes.titel: nobody knows this field',
    ],
  ])('%s', (_name, files, base, text) => {
    expect(said(files, base)).toBe(text);
  });

  it('an inherited item that what is left out has broken', () => {
    const half = ductText.replace(
      'limit: { kind: per-area, value: 6, unit: cfm/100ft2 }',
      'limit: { kind: factor-of, item: bath-exhaust, factor: 0.5 }',
    );
    const limited = bathText.replace('options:', 'limit: { kind: constant, value: 50, unit: cfm }\noptions:');
    const base = loadRuleSet([set(), duct(half), bath(limited)]);
    expect(said([heir(`${heirText}without: [bath-exhaust]\n`)], base)).toBe(
      'heir/set.yaml:1: duct-leakage-total limit.item: "bath-exhaust" is not an item of this set with a limit of its own',
    );
  });

  it('as an error of its own kind that keeps every problem as data', () => {
    const files = [set(), duct(`${ductText}colour: red\n`), bath(bathText.replace('final', 'late'))];
    try {
      loadRuleSet(files);
      expect.fail('it loaded');
    } catch (error) {
      expect(error).toMatchObject({
        name: 'RuleSetError',
        problems: [
          { file: 'tiny/bath-exhaust.yaml', line: 3, field: 'stage' },
          {
            file: 'tiny/duct-leakage-total.yaml',
            line: 17,
            field: 'colour',
            message: 'nobody knows this field',
          },
        ],
      });
    }
  });
});

describe('the line of a field', () => {
  const parsed = parseText(bath());

  it.each([
    [['title'], 2],
    [['options', 0, 'require', 0, 'check'], 11],
    [['options', 0, 'require', 0, 'limit', 'value'], 12],
    [['options', 0, 'require', 0], 10],
    [['tests', 0], 5],
    [['options', 0, 'require', 0, 'limit', 'zones'], 12],
    [['options', 7, 'title'], 6],
    [['nothing', 'of', 'the', 'kind'], 1],
    [[], 1],
  ])('%j is %i, or that of the nearest field above it that is written down', (path, line) => {
    expect(parsed.lineOf(path)).toBe(line);
  });

  it('is told for a text that cannot be read, without its data', () => {
    const broken = parseText({ path: 'a.yaml', text: 'item: [one\n' });
    expect(broken).toMatchObject({ file: 'a.yaml', data: null });
    expect(broken.problems[0]).toMatchObject({ file: 'a.yaml', line: 2, field: '' });
    expect(broken.problems.map(({ message }) => message).join()).not.toMatch(/at line|\n/);
  });
});
