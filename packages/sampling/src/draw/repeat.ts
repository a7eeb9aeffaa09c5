import canonicalize from 'canonicalize';
import { commitmentOf } from './commitment.ts';
import { draw } from './draw.ts';
import { hashRows, inOrder, type FrameRow } from './frame.ts';
import type { TextHasher } from './hash.ts';
import { recordHashOf, type DrawRecord } from './record.ts';

/** One thing that was looked at while repeating a draw. */
export interface RepeatCheck {
  what: string;
  ok: boolean;
  /** what was expected and what was found, for people */
  detail: string;
}

const check = (what: string, ok: boolean, detail: string): RepeatCheck => ({ what, ok, detail });

function sameSample(record: DrawRecord, rows: FrameRow[]): RepeatCheck {
  const again = draw({ ...record, frame: { rows, hash: record.frame.hash } });
  const line = ({ id, position, chance }: DrawRecord['sample'][number]) =>
    `${id} at ${position}, chance ${chance[0]}/${chance[1]}`;
  const [found, stated] = [again.sample as DrawRecord['sample'], record.sample];
  const at = found.findIndex((each, i) => !stated[i] || line(each) !== line(stated[i]));
  const strata = canonicalize(again.strata) === canonicalize(record.strata);
  const ok = at < 0 && found.length === stated.length && strata;
  if (ok) return check('Sample', true, `${found.length} files, the same ones with the same chances`);
  if (!strata && at < 0) return check('Sample', false, 'the strata recorded are not those of the frame');
  const first = at < 0 ? found.length : at;
  return check(
    'Sample',
    false,
    `drawn again: ${found[first] ? line(found[first]) : 'nothing more'}; recorded: ${stated[first] ? line(stated[first]) : 'nothing more'}`,
  );
}

/**
 * Repeats a draw from its record alone and says of each part whether it holds: the commitment, the times, the frame's
 * order and hash, the sample, the record's own hash. Nothing else is needed, and nothing is changed. Throws
 * RangeError where the record's weights or seed cannot be used at all.
 */
export function repeatDraw(record: DrawRecord, hasher?: TextHasher): RepeatCheck[] {
  const rows = record.frame.rows.map(([id, rater, builder, kind, date, weight]) => ({
    ...{ id, rater, builder, kind, date, weight },
  }));
  const commitment = commitmentOf(record.seed);
  const hash = hashRows(rows, hasher);
  const times = [record.committedAt, record.frozenAt, record.drawnAt].map((at) => Date.parse(at));
  return [
    check(
      'Commitment',
      commitment === record.commitment,
      `the seed gives ${commitment}; published was ${record.commitment}`,
    ),
    check(
      'Order of steps',
      times[0]! <= times[1]! && times[1]! <= times[2]!,
      `published ${record.committedAt}, frozen ${record.frozenAt}, drawn ${record.drawnAt}`,
    ),
    check(
      'Frame order',
      inOrder(rows) && rows.length === record.frame.count,
      `${rows.length} rows; ${record.frame.count} stated; sorted and none twice: ${inOrder(rows) ? 'yes' : 'no'}`,
    ),
    check(
      'Frame hash',
      hash === record.frame.hash,
      `the rows give ${hash}; recorded was ${record.frame.hash}`,
    ),
    sameSample(record, rows),
    check(
      'Record hash',
      recordHashOf(record) === record.recordHash,
      `the record gives ${recordHashOf(record)}; it states ${record.recordHash}`,
    ),
  ];
}
