import { describe, expect, it } from 'vitest';
import { compileRuleSet } from '../evaluate.ts';
import type { Criterion, Item } from '../schema/index.ts';
import {
  cfm,
  ducts,
  type Given,
  judged,
  leak,
  madeFacts,
  madeItem,
  pascals,
  setOf,
  unconfirmed,
  way,
} from '../test/made.ts';
import type { Status } from '../types.ts';
import { compileItem } from './item.ts';
import { compileDecisions } from './set.ts';

const most: Criterion = { check: 'at-most', quantity: leak, limit: cfm(100) };
const inside: Criterion = { check: 'is', quantity: 'house.allDuctsInside', value: true };
const hasDucts: Criterion = { check: 'is', quantity: 'house.hasDucts', value: true };
const fireplace: Criterion = { check: 'is', quantity: 'house.hasFireplace', value: true };
const read = { measured: { leakageAt25: 90 } };
const tooMuch = { measured: { leakageAt25: 110 } };
const statusOf = (item: Item, given: Given) => judged(item, given).status;

describe('whether an item applies', () => {
  const all = { ...ducts(most), appliesWhen: [hasDucts, inside] };
  const any = { ...ducts(most), appliesWhenAny: [inside, fireplace] };
  const both = { ...ducts(most), appliesWhen: [hasDucts], appliesWhenAny: [inside, fireplace] };

  it.each<[string, Item, Record<string, boolean | null>, Status]>([
    ['all that has to hold does', all, { hasDucts: true, allDuctsInside: true }, 'pass'],
    ['one of it does not', all, { hasDucts: true, allDuctsInside: false }, 'not-applicable'],
    ['one of it is not known', all, { hasDucts: null, allDuctsInside: true }, 'waiting'],
    [
      'one is not known and another does not hold',
      all,
      { hasDucts: null, allDuctsInside: false },
      'not-applicable',
    ],
    ['one of several holds', any, { allDuctsInside: false, hasFireplace: true }, 'pass'],
    [
      'one of several holds and another is not known',
      any,
      { allDuctsInside: null, hasFireplace: true },
      'pass',
    ],
    ['none of several holds', any, { allDuctsInside: false, hasFireplace: false }, 'not-applicable'],
    ['one of several may hold', any, { allDuctsInside: false, hasFireplace: null }, 'waiting'],
    ['none of several is known', any, { allDuctsInside: null, hasFireplace: null }, 'waiting'],
    [
      'of both lists what has to hold does not',
      both,
      { hasDucts: false, hasFireplace: true },
      'not-applicable',
    ],
    ['of both lists what has to hold is not known', both, { hasDucts: null, hasFireplace: true }, 'waiting'],
    ['of both lists everything holds', both, { hasDucts: true, hasFireplace: true }, 'pass'],
  ])('when %s', (_when, item, house, status) => {
    expect(statusOf(item, { house, ...read })).toBe(status);
  });

  it('is traced with both lists, one behind the other', () => {
    const { applies } = judged(both, { house: { hasFireplace: true }, ...read }).trace;
    expect(applies).toEqual([
      { words: 'a heating or cooling system has ducts: yes', holds: true },
      { words: 'all ducts and air handlers visibly inside conditioned space: no', holds: false },
      { words: 'a fireplace takes its air from the house: yes', holds: true },
    ]);
  });
});

describe('a way to pass that exists only in some houses', () => {
  const fitting = (when: Criterion[]): Item => ({
    ...ducts(),
    options: [{ option: 'way', title: 'One way', when, require: [most] }],
  });
  const two = fitting([inside, fireplace]);

  it.each<[string, Given, Status, number]>([
    [
      'is there where all that it asks of the house holds',
      { house: { allDuctsInside: true, hasFireplace: true }, ...read },
      'pass',
      1,
    ],
    [
      'is not there where one of it does not',
      { house: { allDuctsInside: true, hasFireplace: false }, ...read },
      'waiting',
      0,
    ],
    [
      'waits where one of it is not known, though its reading is good',
      { house: { allDuctsInside: null, hasFireplace: true }, ...read },
      'waiting',
      3,
    ],
    [
      'fails where its reading fails and the house is known',
      { house: { allDuctsInside: true, hasFireplace: true }, ...tooMuch },
      'fail',
      1,
    ],
    [
      'fails by its reading also where the house is not all known',
      { house: { allDuctsInside: null, hasFireplace: true }, ...tooMuch },
      'fail',
      3,
    ],
    ['waits for its reading', { house: { allDuctsInside: true, hasFireplace: true } }, 'waiting', 1],
  ])('%s', (_what, given, status, comparisons) => {
    const verdict = judged(two, given);
    expect(verdict.status).toBe(status);
    expect(verdict.trace.options.flatMap((each) => each.comparisons)).toHaveLength(comparisons);
  });

  it('fails no house by a way that may not exist in it while another was not begun', () => {
    const kind = (value: string): Criterion => ({ check: 'is', quantity: 'house.ventilationKind', value });
    const flow = (quantity: string): Criterion => ({ check: 'at-least', quantity, limit: cfm(60) });
    const item = madeItem('whole-house-ventilation', {
      options: [
        { option: 'in', title: 'In', when: [kind('supply')], require: [flow('measured.supplyFlow')] },
        { option: 'out', title: 'Out', when: [kind('exhaust')], require: [flow('measured.exhaustFlow')] },
      ],
    });
    const measured = { supplyFlow: 40 };
    const at = (ventilationKind: string | null) => judged(item, { house: { ventilationKind }, measured });
    expect(at('supply').status).toBe('fail');
    expect(at(null).status).toBe('waiting');
    expect(at(null).reason).toContain('not entered in the house’s file: kind of whole-house ventilation');
    const both = judged(item, {
      house: { ventilationKind: null },
      measured: { supplyFlow: 40, exhaustFlow: 40 },
    });
    expect(both.status).toBe('fail');
  });

  it('says which fact of the house it waits for', () => {
    const verdict = judged(two, { house: { allDuctsInside: null, hasFireplace: true }, ...read });
    expect(verdict.reason).toBe(
      'Waiting: not entered in the house’s file: all ducts and air handlers visibly inside conditioned space.',
    );
    expect(verdict.trace.options[0]!.verdict).toBe('incomplete');
  });
});

describe('an alternative', () => {
  const pressure: Criterion = { check: 'at-most', quantity: 'measured.pressure', limit: pascals(3) };
  const area: Criterion = {
    check: 'at-least',
    quantity: 'measured.freeArea',
    limit: { kind: 'constant', value: 100, unit: 'in2' },
  };
  const withFact: Criterion = { check: 'is', quantity: 'house.bedrooms', value: 3 };
  const room = (...require: Criterion[]) =>
    madeItem('bedroom-pressure-relief', {
      options: [...way(pressure), { option: 'other', title: 'The other way', require }],
    });

  it.each<[string, Item, Given, Status]>([
    ['that nobody began keeps no failed house waiting', room(area), { measured: { pressure: 4 } }, 'fail'],
    [
      'that was begun does',
      room(area, { ...area, quantity: 'measured.supplyFlow', limit: cfm(1) }),
      { measured: { pressure: 4, freeArea: 120 } },
      'waiting',
    ],
    [
      'is not begun by a fact that is known anyway',
      room(withFact, area),
      { measured: { pressure: 4 } },
      'fail',
    ],
    ['that failed as well changes nothing', room(area), { measured: { pressure: 4, freeArea: 90 } }, 'fail'],
    ['that passes is enough', room(area), { measured: { pressure: 4, freeArea: 110 } }, 'pass'],
  ])('%s', (_what, item, given, status) => {
    expect(statusOf(item, given)).toBe(status);
  });

  it('that was begun with a reading that does not count keeps a failed house waiting', () => {
    const item = room(area);
    const facts = madeFacts(item, { measured: { pressure: 4, freeArea: 120 } });
    facts.measured['bedroom-relief']!['one']!.counts = false;
    expect(compileRuleSet(setOf(item))(facts).verdicts[0]!.status).toBe('waiting');
  });
});

describe('an exemption', () => {
  const exempt = (keepsOpen?: boolean): Item => ({
    ...ducts(most),
    exemptions: [
      {
        exemption: 'in',
        title: 'Inside',
        require: [inside],
        ...(keepsOpen === undefined ? {} : { keepsOpen }),
      },
    ],
  });

  it.each<[string, Item, Given, Status]>([
    ['goes before a pass', exempt(), { house: { allDuctsInside: true }, ...read }, 'exempt'],
    ['goes before a fail', exempt(), { house: { allDuctsInside: true }, ...tooMuch }, 'exempt'],
    [
      'that is open keeps a failed house waiting',
      exempt(),
      { house: { allDuctsInside: null }, ...tooMuch },
      'waiting',
    ],
    ['that is open does not hold up a pass', exempt(), { house: { allDuctsInside: null }, ...read }, 'pass'],
    [
      'may be one that nobody waits for',
      exempt(false),
      { house: { allDuctsInside: null }, ...tooMuch },
      'fail',
    ],
    [
      'may be one that is waited for in so many words',
      exempt(true),
      { house: { allDuctsInside: null }, ...tooMuch },
      'waiting',
    ],
    ['that fails leaves the ways to pass', exempt(), { house: { allDuctsInside: false }, ...read }, 'pass'],
    [
      'needs a house that the item applies to',
      { ...exempt(), appliesWhen: [fireplace] },
      { house: { allDuctsInside: true } },
      'not-applicable',
    ],
    [
      'does not come before what is not known to apply',
      { ...exempt(), appliesWhen: [fireplace] },
      { house: { allDuctsInside: true, hasFireplace: null } },
      'waiting',
    ],
  ])('%s', (_what, item, given, status) => {
    expect(statusOf(item, given)).toBe(status);
  });

  it('decides by its own key, and a way to pass by its own', () => {
    const by = (given: Given) => judged(exempt(), given).trace.decidedBy;
    expect(by({ house: { allDuctsInside: true }, ...read })).toBe('in');
    expect(by(read)).toBe('way');
    expect(by(tooMuch)).toBeNull();
  });
});

describe('stop-work', () => {
  const stop = (value: number) => ({
    title: `Above ${value}.`,
    source: unconfirmed,
    require: [{ check: 'above', quantity: leak, limit: cfm(value) } as const],
  });
  const item: Item = { ...ducts(most), stopWork: [stop(200), stop(300)] };

  it('is read from readings that do not count, and needs all that it asks', () => {
    const given = { measured: { leakageAt25: 250 }, doesNotCount: 'The manometer was out of calibration.' };
    expect(judged(item, given)).toMatchObject({ status: 'waiting', stopWork: 'Above 200.' });
    const both: Item = { ...item, stopWork: [{ ...stop(200), require: [...stop(200).require, inside] }] };
    expect(judged(both, given).stopWork).toBeNull();
  });

  it('is numbered from one', () => {
    expect(compileItem(item, setOf(item)).stopWork.map(({ key }) => key)).toEqual([
      'stop-work-1',
      'stop-work-2',
    ]);
  });

  it('keeps no guard band: what stops work is not what admits a house', () => {
    const verdict = judged(
      item,
      { measured: { leakageAt25: 205 } },
      { u: 5, decision: { rule: 'guard-band', factor: 1 } },
    );
    expect(verdict.stopWork).toBe('Above 200.');
  });
});

describe('which items a verdict rests on', () => {
  const item = (name: string, tests: Item['tests'], quantity = leak): Item => ({
    ...ducts({ check: 'recorded', quantity }),
    item: name,
    tests,
  });
  const dependsOn = (...items: Item[]) =>
    Object.fromEntries(compileDecisions(setOf(...items)).dependsOn) as Record<string, string[]>;

  it('are those whose test it names, and those that own a test which it lists with others', () => {
    const outdoors = item('outdoors', ['duct-leakage-outdoors'], 'measured.duct-leakage-total.leakageAt25');
    const total = item('total', ['duct-leakage-total', 'ventilator-duct-leakage']);
    const ventilator = { ...item('ventilator', ['ventilator-duct-leakage']), options: [] };
    expect(dependsOn(outdoors, total, ventilator)).toEqual({
      outdoors: ['total'],
      total: ['ventilator'],
      ventilator: [],
    });
  });

  it('are not those that list just the same tests', () => {
    expect(dependsOn(item('one', ['duct-leakage-total']), item('two', ['duct-leakage-total']))).toEqual({
      one: [],
      two: [],
    });
  });
});

describe('a house that lists nothing of the kind', () => {
  const none = {
    ...madeItem('kitchen-exhaust', { options: [] }),
    whenNone: { status: 'waiting', words: 'None' },
  } as const;

  it('answers under its own name, or as the house', () => {
    const facts = madeFacts(ducts(most), {});
    const judge = compileRuleSet(setOf(none));
    const named = facts.subjects.map((each) => ({ ...each, id: 'h7', label: 'Lot 7' }));
    expect(judge({ ...facts, subjects: named }).verdicts[0]).toMatchObject({
      subjectId: 'h7',
      subjectLabel: 'Lot 7',
    });
    expect(judge({ ...facts, subjects: [] }).verdicts[0]).toMatchObject({
      subjectId: 'house',
      subjectKind: 'house',
      subjectLabel: 'House',
      headline: null,
      takes: [],
      dependsOn: [],
      stopWork: null,
      trace: { applies: [], exemptions: [], options: [], inputs: [], readingIds: [], decidedBy: null },
    });
  });
});
