import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { headSchema, type Head } from '@countercheck/seal';
import { withDatabaseHere } from '../event-log/database-here.ts';
import { verifyDatabase, verifyFile } from '../event-log/verify.ts';

const usage = `npm run verify-log -- [--file log.jsonl] [--head head.json]…

Checks the event log, record by record, and says which is the first that is broken.
  --file   an exported log; without it the database of DATABASE_URL, or else the one below .data
  --head   a head that was kept elsewhere; may be given several times
Ends with 0 when everything holds, 1 when something does not, 2 when it could not be checked.`;

function readHead(path: string): Head {
  try {
    return headSchema.parse(JSON.parse(readFileSync(path, 'utf8')));
  } catch (error) {
    const reason = (error as NodeJS.ErrnoException).code ?? 'it is no exported head';
    throw new Error(`${path} cannot be read as a head (${reason}).`, { cause: error });
  }
}

async function verify(): Promise<boolean> {
  const { values } = parseArgs({
    options: {
      file: { type: 'string' },
      head: { type: 'string', multiple: true },
      help: { type: 'boolean' },
    },
  });
  if (values.help) {
    console.log(usage);
    return true;
  }
  const heads = (values.head ?? []).map(readHead);
  const { file } = values;
  const { intact, words } = await (file === undefined
    ? withDatabaseHere((url) => verifyDatabase(url, heads))
    : verifyFile(file, heads));
  for (const line of words) console.log(line);
  if (heads.length === 0)
    console.log(
      'No head was given: records cut off at the end, or a log written anew as a whole, would not be found.',
    );
  return intact;
}

try {
  process.exitCode = (await verify()) ? 0 : 1;
} catch (error) {
  console.error(`The log could not be checked: ${error instanceof Error ? error.message : String(error)}`);
  process.exitCode = 2;
}
