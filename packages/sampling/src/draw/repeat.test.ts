import { expect, it } from 'vitest';
import {
  algorithm,
  commitmentOf,
  draw,
  drawRecordSchema,
  makeFrame,
  recordHashOf,
  repeatDraw,
  type DrawRecord,
} from '../index.ts';

const seed = 'ab'.repeat(32);

function recorded(change: Partial<DrawRecord> = {}): DrawRecord {
  const frame = makeFrame(
    Array.from({ length: 40 }, (_, i) => ({
      ...{ id: `h${i}`, rater: `r${i % 3}`, builder: 'b', kind: 'final', date: '2026-03-01', weight: 1 },
    })),
  );
  const asked = { method: 'stratified', size: { share: 1000 }, witness: 'dice 3 1 6' } as const;
  const result = draw({ frame, seed, ...asked });
  const record: Omit<DrawRecord, 'recordHash'> = {
    ...{ format: 'countercheck draw', formatVersion: 1, algorithm, id: 'd1', title: 'March' },
    ...{ purpose: 'file-review', population: { from: '2026-03-01', to: null }, weighing: null },
    ...asked,
    ...{ commitment: commitmentOf(seed), seed, committedAt: '2026-04-01T08:00:00Z' },
    ...{ frozenAt: '2026-04-01T09:00:00Z', drawnAt: '2026-04-01T09:01:00Z' },
    frame: {
      count: 40,
      hash: frame.hash,
      rows: frame.rows.map((r) => [r.id, r.rater, r.builder, r.kind, r.date, r.weight]),
    },
    strata: result.strata,
    sample: result.sample.map(({ chance, ...each }) => ({ ...each, chance: [...chance] })),
    ...change,
  };
  return { ...record, recordHash: recordHashOf(record) };
}
const broken = (record: DrawRecord) => repeatDraw(record).flatMap(({ what, ok }) => (ok ? [] : [what]));

it('repeats a draw from its record alone, through text and back', () => {
  const record = drawRecordSchema.parse(JSON.parse(JSON.stringify(recorded())));
  expect(broken(record)).toEqual([]);
  expect(repeatDraw(record)).toHaveLength(6);
});

it('finds what was changed afterwards', () => {
  const good = recorded();
  const rows = good.frame.rows;
  expect(broken(recorded({ seed: 'ac'.repeat(32) }))).toEqual(['Commitment', 'Sample']);
  expect(broken(recorded({ drawnAt: '2026-04-01T08:30:00Z' }))).toEqual(['Order of steps']);
  expect(broken(recorded({ witness: '' }))).toEqual(['Sample']);
  expect(broken({ ...good, title: 'April' })).toEqual(['Record hash']);
  expect(broken(recorded({ frame: { ...good.frame, rows: rows.toReversed() } }))).toContain('Frame order');
  const without = rows.filter((_, at) => at !== 20);
  expect(broken(recorded({ frame: { ...good.frame, rows: without } }))).toEqual(
    expect.arrayContaining(['Frame order', 'Frame hash', 'Sample']),
  );
  const sample = good.sample.map((each, at) => (at === 1 ? { ...each, id: 'h39' } : each));
  const [, , , , found] = repeatDraw(recorded({ sample }));
  expect(found).toMatchObject({ what: 'Sample', ok: false });
  expect(found!.detail).toMatch(/drawn again: h\d+ at .*; recorded: h39 at /);
  expect(broken(recorded({ sample: good.sample.slice(1) }))).toEqual(['Sample']);
  const strata = good.strata!.map((each) => ({ ...each, population: 99 }));
  expect(broken(recorded({ strata }))).toEqual(['Sample']);
});
