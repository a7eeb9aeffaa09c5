import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { drawRecordSchema, repeatDraw, type RepeatCheck } from '@countercheck/sampling';

/** What a file says about the draw it records, or why it cannot be read. Needs no database and no network. */
export function repeatFile(path: string): { problem: string } | { title: string; checks: RepeatCheck[] } {
  let content: unknown;
  try {
    content = JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    return { problem: `${path} cannot be read: ${error instanceof Error ? error.message : String(error)}` };
  }
  const parsed = drawRecordSchema.safeParse(content);
  if (!parsed.success) {
    const [first] = parsed.error.issues;
    return {
      problem: `${path} is no record of a draw: ${first?.path.join('.') ?? ''} – ${first?.message ?? ''}`,
    };
  }
  const hash = createHash('sha256');
  const native = { update: (text: string) => void hash.update(text), hex: () => hash.digest('hex') };
  const { title, sample, frame } = parsed.data;
  return {
    title: `${title}: ${sample.length} of ${frame.count} files`,
    checks: repeatDraw(parsed.data, native),
  };
}

function main(path: string | undefined): number {
  if (path === undefined) {
    console.error('Say which record to repeat: npm run repeat-draw -- draw.json');
    return 2;
  }
  const said = repeatFile(path);
  if ('problem' in said) {
    console.error(said.problem);
    return 2;
  }
  console.log(said.title);
  for (const { what, ok, detail } of said.checks)
    console.log(`${ok ? 'same ' : 'OTHER'}  ${what}: ${detail}`);
  const same = said.checks.every(({ ok }) => ok);
  console.log(
    same ? 'The draw was repeated: every part is the same.' : 'This is NOT the draw that the record states.',
  );
  return same ? 0 : 1;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  process.exitCode = main(process.argv[2]);
