import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import { checkChain, readLog, type ChainReport, type Head, type Sha256 } from '@countercheck/seal';
import { withClient } from '../database.ts';
import { chainOf, seeAsService, strangers } from './from-database.ts';

/** What was found, and in words for whoever asked. */
export interface Verified {
  report: ChainReport;
  intact: boolean;
  words: string[];
}

// Several times quicker than WebCrypto, which hands every call to another thread.
const sha256: Sha256 = (bytes) => createHash('sha256').update(bytes).digest();

function wordsOf({ good, head, broken, heads }: ChainReport): string[] {
  const many = `${good.toLocaleString('en')} record${good === 1 ? '' : 's'}`;
  return [
    broken
      ? `Broken at record ${broken.sequence}: ${broken.words}. The ${many} before it are as they were chained.`
      : `${many} are as they were chained.`,
    ...(broken ? [] : [`Head: record ${head.sequence}, ${head.hash}`]),
    ...heads.map(
      ({ head: kept, holds, words }) =>
        `${holds ? 'Holds' : 'Does not hold'}: the head of ${kept.at} (record ${kept.sequence}) – ${words}.`,
    ),
  ];
}

/** Checks the log in a database, read as it stands at one moment. */
export function verifyDatabase(url: string, heads: readonly Head[]): Promise<Verified> {
  return withClient(url, async (client) => {
    await seeAsService(client);
    const report = await checkChain(chainOf(client), heads, sha256);
    const outside = await strangers(client);
    const words = wordsOf(report);
    if (outside) {
      const { id, at, action } = outside.first;
      words.push(
        `Not in the chain: ${outside.count} event${outside.count === 1 ? '' : 's'}, first event ${id} (“${action}”, ${at.toISOString()}), put into the table past the service.`,
      );
    }
    return { report, words, intact: !report.broken && !outside && report.heads.every(({ holds }) => holds) };
  });
}

/** Checks an exported log, which names its own head in its first line. */
export async function verifyFile(path: string, heads: readonly Head[]): Promise<Verified> {
  const input = createReadStream(path, 'utf8');
  const failed = new Promise<never>((_resolve, reject) => input.on('error', reject));
  const work = async () => {
    const log = await readLog(createInterface({ input, crlfDelay: Infinity }));
    const report = await checkChain(log.records, [log.head, ...heads], sha256);
    return {
      report,
      words: wordsOf(report),
      intact: !report.broken && report.heads.every(({ holds }) => holds),
    };
  };
  return Promise.race([work(), failed]);
}
