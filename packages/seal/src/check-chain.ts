import { chainVersion, contentHash, genesis, linkHash } from './chain.ts';
import type { Head } from './formats.ts';
import { toHex, webSha256, type Sha256 } from './sha256.ts';

/** A place in the chain and what is in it. */
export interface ChainRecord {
  sequence: number;
  version: number;
  previous: Uint8Array;
  hash: Uint8Array;
  /** as it was hashed; missing when the event is gone */
  content: string | undefined;
  /** what the columns of the event say today, as canonical JSON; only where they are at hand */
  columns?: string | undefined;
}

export interface HeadFinding {
  head: Head;
  holds: boolean;
  words: string;
}

export interface ChainReport {
  /** how many records were found good, from the first on */
  good: number;
  /** the newest good record */
  head: { sequence: number; hash: string };
  /** the first record that is not as it was chained */
  broken?: { sequence: number; words: string };
  heads: HeadFinding[];
}

const same = (one: Uint8Array, other: Uint8Array) =>
  one.length === other.length && one.every((byte, i) => byte === other[i]);

/** What is wrong with a record that should follow the one before it; undefined when nothing is. */
async function wrongWith(
  record: ChainRecord,
  before: { sequence: number; hash: Uint8Array },
  sha256: Sha256,
): Promise<string | undefined> {
  const { sequence, version, previous, content, columns, hash } = record;
  if (content === undefined) return 'its event is gone';
  if (version !== chainVersion)
    return `it is chained in version ${version}, which this program does not know`;
  if (!same(previous, before.hash))
    return before.sequence === 0
      ? 'it does not begin the chain'
      : `it does not follow record ${before.sequence} as that record is now`;
  const again = await linkHash(
    { version, previous, sequence, contentHash: await contentHash(content, sha256) },
    sha256,
  );
  if (!same(again, hash)) return 'its content, place or hash was changed after it was chained';
  if (columns !== undefined && columns !== content)
    return 'what its columns say is not the content that was chained';
  return undefined;
}

function judgeHead(head: Head, good: number, met: string | undefined, broken: boolean): HeadFinding {
  const { sequence } = head;
  if (met === head.hash) return { head, holds: true, words: `record ${sequence} is as that head says` };
  if (met !== undefined)
    return {
      head,
      holds: false,
      words: `record ${sequence} has another hash: the log before it was written anew`,
    };
  if (broken) return { head, holds: false, words: `the log is broken before record ${sequence}` };
  const missing =
    good + 1 === sequence
      ? `record ${sequence} is missing`
      : `records ${good + 1} to ${sequence} are missing`;
  return { head, holds: false, words: `the log ends at record ${good}; ${missing}` };
}

/**
 * Reads a log from its first record on and stops at the first that is broken: a gap, an order, a content, a hash
 * or a column that is not as it was chained. Heads that were kept elsewhere are looked up on the way; only they
 * tell that records at the end are gone, or that a whole log was written anew. Never throws for what is wrong with
 * the log; what the source of the records throws comes through.
 */
export async function checkChain(
  records: AsyncIterable<ChainRecord> | Iterable<ChainRecord>,
  heads: readonly Head[] = [],
  sha256: Sha256 = webSha256,
): Promise<ChainReport> {
  const wanted = new Set(heads.map(({ sequence }) => sequence));
  let last = { sequence: 0, hash: genesis() as Uint8Array };
  const met = new Map<number, string>(wanted.has(0) ? [[0, toHex(last.hash)]] : []);
  let broken: ChainReport['broken'];
  for await (const record of records) {
    const expected = last.sequence + 1;
    if (record.sequence > expected) {
      broken = {
        sequence: expected,
        words: `it is missing: record ${record.sequence} comes ${expected === 1 ? 'first' : `after record ${last.sequence}`}`,
      };
      break;
    }
    const words =
      record.sequence < expected ? 'its number comes a second time' : await wrongWith(record, last, sha256);
    if (words !== undefined) {
      broken = { sequence: record.sequence, words };
      break;
    }
    last = { sequence: record.sequence, hash: record.hash };
    if (wanted.has(record.sequence)) met.set(record.sequence, toHex(record.hash));
  }
  return {
    good: last.sequence,
    head: { sequence: last.sequence, hash: toHex(last.hash) },
    ...(broken ? { broken } : {}),
    heads: heads.map((head) => judgeHead(head, last.sequence, met.get(head.sequence), broken !== undefined)),
  };
}
