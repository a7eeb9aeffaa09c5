import * as z from 'zod';
import { contentHash, linkHash } from './chain.ts';
import { headSchema, logRecordSchema, type Head } from './formats.ts';
import { fromHex, toHex, webSha256, type Sha256 } from './sha256.ts';

/** What goes with a released file: the record of its release, and the way from there to a later head of the log. */
export const proofSchema = z.object({
  format: z.literal('countercheck-release-proof/1'),
  release: z.object({ id: z.string(), revision: z.int(), hash: z.string() }),
  record: logRecordSchema,
  path: z
    .array(z.object({ version: z.int(), contentHash: z.string().regex(/^[0-9a-f]{64}$/) }))
    .describe('the records after it, up to the head: the hash of their content only'),
  head: headSchema,
  result: z
    .string()
    .nullable()
    .describe('what the builder was given, as canonical JSON; its hash is in the record'),
});
export type Proof = z.infer<typeof proofSchema>;

export interface ProofCheck {
  what: 'record' | 'release' | 'result' | 'path' | 'head';
  holds: boolean;
  words: string;
}

/** What the record of a release says about it. */
const releasedSchema = z.object({
  at: z.string(),
  actorName: z.string(),
  action: z.literal('file released'),
  recordId: z.string(),
  after: z.object({ revision: z.int(), hash: z.string(), resultHash: z.string().optional() }),
});

// Of one clock for everybody who checks it, wherever they are.
const whenWords = (at = '') =>
  at === '' ? 'at no time' : `on ${at.slice(0, 10)} at ${at.slice(11, 19)} UTC`;

/** The record's content read as that of a release; undefined when it is none. */
export function releasedRecord(content: string): z.infer<typeof releasedSchema> | undefined {
  try {
    return releasedSchema.safeParse(JSON.parse(content)).data;
  } catch {
    return undefined;
  }
}

/** The hashes of the records from that of the release to the head, by their place. */
async function walk({ record, path }: Proof, sha256: Sha256): Promise<Map<number, string>> {
  let hash: Uint8Array = await linkHash(
    {
      version: record.version,
      previous: fromHex(record.previous),
      sequence: record.sequence,
      contentHash: await contentHash(record.content, sha256),
    },
    sha256,
  );
  const met = new Map([[record.sequence, toHex(hash)]]);
  for (const [i, step] of path.entries()) {
    const sequence = record.sequence + i + 1;
    const link = { version: step.version, previous: hash, sequence };
    hash = await linkHash({ ...link, contentHash: fromHex(step.contentHash) }, sha256);
    met.set(sequence, toHex(hash));
  }
  return met;
}

function checkKept(kept: Head, met: Map<number, string>, first: number, last: number): ProofCheck {
  const { sequence } = kept;
  const says = (holds: boolean, words: string): ProofCheck => ({ what: 'head', holds, words });
  if (sequence < first)
    return says(
      false,
      `The head you kept (record ${sequence}) is older than this release; take a later one.`,
    );
  if (sequence > last)
    return says(
      false,
      `The head you kept (record ${sequence}) is newer than this proof reaches; fetch the proof anew.`,
    );
  return met.get(sequence) === kept.hash
    ? says(true, `The head you kept (record ${sequence}) lies on the way: this record was in the log then.`)
    : says(false, `The head you kept (record ${sequence}) has another hash: the log was changed since.`);
}

/**
 * Works out every hash of a proof again and says what holds. A head that was kept by whoever asks is looked up on
 * the way. Throws a RangeError at a chain version that it does not know.
 */
export async function checkProof(
  proof: Proof,
  kept?: Head,
  sha256: Sha256 = webSha256,
): Promise<ProofCheck[]> {
  const { release, record, path, head, result } = proof;
  const met = await walk(proof, sha256);
  const last = record.sequence + path.length;
  const said = releasedRecord(record.content);
  const checks: ProofCheck[] = [];
  const add = (what: ProofCheck['what'], holds: boolean, good: string, bad: string) =>
    checks.push({ what, holds, words: holds ? good : bad });
  add(
    'record',
    met.get(record.sequence) === record.hash,
    `Record ${record.sequence} of the log is as it was chained.`,
    `Record ${record.sequence} of the log does not give its hash: it was changed.`,
  );
  add(
    'release',
    said?.recordId === release.id &&
      said.after.hash === release.hash &&
      said.after.revision === release.revision,
    `It says that ${said?.actorName ?? 'nobody'} released this file, with this seal, ${whenWords(said?.at)}.`,
    'It does not say that this file was released with this seal.',
  );
  if (result !== null) {
    const again = toHex(await contentHash(result, sha256));
    add(
      'result',
      said?.after.resultHash === again,
      'The result is word for word the one that was released.',
      'The result is not the one that was released.',
    );
  }
  add(
    'path',
    head.sequence === last && met.get(last) === head.hash,
    path.length === 0
      ? `It was the newest record, the head of the log.`
      : `From it ${path.length} record${path.length === 1 ? '' : 's'} lead to the head of the log, record ${last}.`,
    'The records after it do not lead to the head that is named.',
  );
  if (kept) checks.push(checkKept(kept, met, record.sequence, last));
  return checks;
}
