import fc from 'fast-check';
import { testDefinitions, testKeys } from '@countercheck/measurement';
import { describe, expect, it } from 'vitest';
import { orderOfWork, type Work } from './order.ts';
import { connected, setUps } from './set-ups.ts';

const work = (
  test: Work['test'],
  subject = 'house',
  safety = setUps[test].stretch === 'combustion',
): Work => ({
  ...{ test, subjectId: subject, subjectLabel: subject, safety },
});
const names = (tests: Work[]) => orderOfWork(tests).map(({ work: each }) => `${each.test}/${each.subjectId}`);

/** Any tests of a house, each on some of two parts, in any order, and any of them a safety item. */
const anyTests = fc
  .uniqueArray(fc.tuple(fc.constantFrom(...testKeys), fc.constantFrom('part 1', 'part 2')), {
    selector: (each) => each.join(),
  })
  .chain((pairs) =>
    fc.tuple(
      fc.constant(pairs),
      fc.array(fc.boolean(), { minLength: pairs.length, maxLength: pairs.length }),
    ),
  )
  .map(([pairs, safe]) =>
    pairs.map(([test, subject], i) => work(test, subject, setUps[test].stretch === 'combustion' || safe[i])),
  );

describe('the order of work', () => {
  it('leads from one set-up to the next in a whole house', () => {
    const all = [
      ...['Bath 2', 'Bath 10', 'Bath 1'].map((bath) => work('bath-exhaust', bath)),
      ...['System 1', 'System 2'].flatMap((system) => [
        ...[work('duct-leakage-outdoors', system), work('duct-leakage-total', system)],
        ...[work('return-static', system), work('supply-static', system)],
      ]),
      ...[work('envelope-leakage'), work('ventilator-duct-leakage', 'Unit'), work('bedroom-pressure', 'Bed')],
      ...[work('bedroom-relief', 'Bed'), work('whole-house-ventilation', 'Unit'), work('depressurization')],
      ...['Boiler', 'Heater'].flatMap((each) => [work('flue-carbon-monoxide', each), work('spillage', each)]),
      ...[work('ambient-carbon-monoxide'), work('kitchen-exhaust', 'Kitchen')],
    ];
    expect(names(all)).toEqual([
      ...['ambient-carbon-monoxide/house', 'depressurization/house'],
      ...['spillage/Boiler', 'flue-carbon-monoxide/Boiler', 'spillage/Heater', 'flue-carbon-monoxide/Heater'],
      ...['envelope-leakage/house', 'duct-leakage-total/System 1', 'duct-leakage-outdoors/System 1'],
      ...['duct-leakage-total/System 2', 'duct-leakage-outdoors/System 2', 'ventilator-duct-leakage/Unit'],
      ...[
        'supply-static/System 1',
        'return-static/System 1',
        'supply-static/System 2',
        'return-static/System 2',
      ],
      ...['bedroom-pressure/Bed', 'bedroom-relief/Bed', 'whole-house-ventilation/Unit'],
      ...['kitchen-exhaust/Kitchen', 'bath-exhaust/Bath 1', 'bath-exhaust/Bath 2', 'bath-exhaust/Bath 10'],
    ]);
  });

  it('says why each comes now', () => {
    const reasons = orderOfWork([
      ...[work('ambient-carbon-monoxide'), work('envelope-leakage'), work('duct-leakage-total', 'System 1')],
      ...[work('duct-leakage-outdoors', 'System 1'), work('supply-static', 'System 1')],
      ...[work('return-static', 'System 1'), work('bath-exhaust', 'Bath'), work('depressurization')],
    ]).map(({ reason }) => reason);
    expect(reasons).toEqual([
      'Combustion first: nothing else begins before the air is known to be safe. Zero the CO monitor outdoors; it stays on your body.',
      'Set fans and doors to the worst case.',
      'Put the fan in the doorway.',
      'Connect the duct tester and seal the registers.',
      'The fan is still in the doorway, the duct tester is still connected.',
      'Open every register and run the air handler; put the probes in the test holes.',
      'The air handler is still running, the probes are still connected.',
      'Take the flow hood or flow meter.',
    ]);
  });

  it('lets a stretch with a safety item go before the others, whole', () => {
    const order = names([
      work('envelope-leakage'),
      work('kitchen-exhaust', 'Kitchen', true),
      work('bath-exhaust', 'Bath'),
    ]);
    expect(order).toEqual(['kitchen-exhaust/Kitchen', 'bath-exhaust/Bath', 'envelope-leakage/house']);
  });

  it('sets nothing up twice, whatever is tested on whichever parts', () => {
    fc.assert(
      fc.property(anyTests, (tests) => {
        const order = orderOfWork(tests);
        const made = order.flatMap(({ work: { subjectId }, newly }) =>
          newly.map((rig) => (connected.includes(rig) ? `${rig} at ${subjectId}` : rig)),
        );
        // The duct tester is connected to systems and to the ventilator: those are other parts than each other.
        const ventilator = order.filter(({ work: each }) => each.test === 'ventilator-duct-leakage').length;
        const allowed = (rig: string) => (rig.startsWith('duct-tester') ? 1 + Math.min(1, ventilator) : 1);
        for (const rig of new Set(made))
          expect(made.filter((each) => each === rig).length, rig).toBeLessThanOrEqual(allowed(rig));
      }),
    );
  });

  it('is the same whatever order the tests are given in, and leaves none out', () => {
    fc.assert(
      fc.property(anyTests, fc.infiniteStream(fc.nat()), (tests, numbers) => {
        const keyed = tests.map((each) => ({ each, key: numbers.next().value as number }));
        const shuffled = keyed.toSorted((a, b) => a.key - b.key).map(({ each }) => each);
        expect(names(shuffled)).toEqual(names(tests));
        expect(names(tests).toSorted()).toEqual(
          tests.map(({ test, subjectId }) => `${test}/${subjectId}`).toSorted(),
        );
      }),
    );
  });

  it('begins with combustion, and with the air of the rooms before anything is lit', () => {
    fc.assert(
      fc.property(anyTests, (tests) => {
        const order = orderOfWork(tests);
        const last = order.findLastIndex(({ stretch }) => stretch === 'combustion');
        expect(order.slice(0, last + 1).every(({ stretch }) => stretch === 'combustion')).toBe(true);
        const monitored = order.findLastIndex(({ work: each }) => each.test === 'ambient-carbon-monoxide');
        expect(
          order.slice(0, monitored + 1).every(({ work: each }) => each.test === 'ambient-carbon-monoxide'),
        ).toBe(true);
      }),
    );
  });

  it('counts the same kind of device as one set-up only where the tests can share it', () => {
    for (const key of testKeys) {
      const { instrumentKinds } = testDefinitions[key];
      if (setUps[key].rigs.includes('blower-door') && !setUps[key].rigs.includes('duct-tester'))
        expect(instrumentKinds).toEqual(['blower-door']);
      if (setUps[key].rigs.includes('duct-tester')) expect(instrumentKinds).toEqual(['duct-tester']);
      if (setUps[key].rigs.includes('probes')) expect(instrumentKinds).toEqual(['manometer']);
    }
  });
});
