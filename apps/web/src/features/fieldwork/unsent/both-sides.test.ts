import { expect, it } from 'vitest';
import type { VisitSheet } from '@countercheck/contracts';
import type { Content } from '../phone/content.ts';
import { changedSides, readingSides } from './both-sides.ts';

const zone = 'America/New_York';
const times = { startsAt: '2026-11-25T15:00:00.000Z', endsAt: '2026-11-25T17:00:00.000Z' };
const sheet = (more: { visit?: object; reported?: object; hidden?: object[]; figuresRevision?: number }) =>
  ({
    visit: { id: 'visit', ...times, ...more.visit },
    figuresRevision: more.figuresRevision ?? 1,
    file: {
      house: { ventilationKind: 'none' },
      systems: [
        { id: 'one', label: 'System 1' },
        { id: 'two', label: 'System 2' },
      ],
      ...{ rooms: [], appliances: [], hidden: more.hidden ?? [] },
      reported: more.reported ?? {},
    },
  }) as unknown as VisitSheet;
const figures = { one: { supplyStatic: 0.085, returnStatic: 0.1 }, two: { supplyStatic: 0.07 } };
const content = {
  ...{ kind: 'reading', visitId: 'visit', place: 'x', figures },
  body: { test: 'supply-static', subjectId: 'one', seen: { ...times, figuresRevision: 1 } },
} as unknown as Content;

it('lays the times of a moved visit side by side, and nothing else', () => {
  const moved = sheet({ visit: { startsAt: '2026-11-25T14:00:00.000Z' } });
  const sides = changedSides(content, moved, zone, 'us');
  expect(sides.map(({ label, differs }) => [label, differs])).toEqual([['Visit', true]]);
  expect(sides[0]!.here).not.toBe(sides[0]!.there);
});

it('lays the figures of both revisions side by side: the reading’s own, and whatever else has changed', () => {
  const reported = { one: { supplyStatic: 0.2, returnStatic: 0.1 }, two: { supplyStatic: 0.09 } };
  const sides = changedSides(content, sheet({ figuresRevision: 2, reported }), zone, 'us');
  expect(sides.map(({ here, there }) => [here, there])).toEqual([
    ['revision 1', 'revision 2'],
    [expect.stringContaining('0.085'), expect.stringContaining('0.2')],
    [expect.stringContaining('0.07'), expect.stringContaining('0.09')],
  ]);
  const same = changedSides(content, sheet({ figuresRevision: 2, reported: figures }), zone, 'us');
  expect(same.map(({ differs }) => differs)).toEqual([true, false]);
});

it('tells nothing of a figure that is still hidden', () => {
  const hidden = [{ test: 'supply-static', subjectId: 'one' }];
  const kept = { ...content, figures: {} } as Content;
  const sides = changedSides(kept, sheet({ figuresRevision: 2, hidden }), zone, 'us');
  expect(sides[1]).toMatchObject({ here: sides[1]!.there, differs: false });
  expect(sides[1]!.there).toMatch(/^hidden until/);
});

it('lays two readings side by side, number by number', () => {
  const reading = (pressure: number, text: string, instrument: string) => ({
    ...{ test: 'supply-static' as const, takenAt: times.startsAt, instrument },
    raw: { values: { pressure }, choices: {}, rows: [], confirmations: {} },
    entered: { 'values.pressure': { text, unit: 'inH2O' } },
  });
  const sides = readingSides(reading(0.09, '0.090', 'A'), reading(0.12, '0.12', 'A'), zone, 'us');
  expect(sides.map(({ label, differs }) => [label, differs])).toEqual([
    ['Pressure', true],
    ['Instrument', false],
    ['Read at', false],
  ]);
  expect(sides[0]!.here).toContain('0.090');
});
