import { logHeaderSchema, logRecordSchema, type Head } from './formats.ts';
import type { ChainRecord } from './check-chain.ts';
import { fromHex } from './sha256.ts';

function parse(line: string, number: number): unknown {
  try {
    return JSON.parse(line);
  } catch {
    throw new SyntaxError(`Line ${number} is no JSON.`);
  }
}

/**
 * Reads an exported log line by line: its head first, then its records as they come. Throws a SyntaxError that
 * names the line where the file is no log; what is wrong with a log as such is for `checkChain` to find.
 */
export async function readLog(
  lines: AsyncIterable<string>,
): Promise<{ head: Head; records: AsyncGenerator<ChainRecord> }> {
  const all = lines[Symbol.asyncIterator]();
  const first = await all.next();
  const header = logHeaderSchema.safeParse(first.done ? undefined : parse(first.value, 1));
  if (!header.success) throw new SyntaxError('Line 1 is not the head of an exported event log.');
  async function* records(): AsyncGenerator<ChainRecord> {
    for (let number = 2; ; number += 1) {
      const next = await all.next();
      if (next.done) return;
      if (next.value === '') continue;
      const record = logRecordSchema.safeParse(parse(next.value, number));
      if (!record.success) throw new SyntaxError(`Line ${number} is not a record of the event log.`);
      const { previous, hash, ...rest } = record.data;
      yield { ...rest, previous: fromHex(previous), hash: fromHex(hash) };
    }
  }
  return { head: header.data.head, records: records() };
}
