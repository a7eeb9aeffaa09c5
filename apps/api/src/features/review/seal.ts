import canonicalize from 'canonicalize';
import { createHash } from 'node:crypto';
import * as z from 'zod';
import type { Prisma } from '@countercheck/prisma';
import type { CompiledRuleSet } from '../assessment/index.ts';
import type { fileParts } from './file-parts.ts';

const sealFormat = 'countercheck-file/1';

/** What a release seals: everything its verdicts rest on, so that they can be worked out again without us. */
export function contentOf(
  { records, assessed }: Awaited<ReturnType<typeof fileParts>>,
  released: { by: string; note: string | null },
): Prisma.InputJsonObject {
  const { key, version, title, hash, set }: CompiledRuleSet = assessed.ruleSet;
  const { counts: _counts, updatedAt: _updatedAt, ...house } = records.house;
  const content = {
    format: sealFormat,
    revision: house.revision,
    released,
    ...records,
    house,
    ruleSet: { key, version, title, hash, body: set },
    file: assessed.file,
    counts: assessed.scorecard.counts,
  };
  return JSON.parse(JSON.stringify(content)) as Prisma.InputJsonObject;
}

/** SHA-256 of the canonical JSON (RFC 8785), which does not hang on how a database orders its keys. */
export function hashOf(content: unknown): string {
  return createHash('sha256')
    .update(canonicalize(content) ?? '')
    .digest('hex');
}

/** What a builder's result takes out of the sealed content. */
export const sealedResultSchema = z.object({
  house: z.object({
    id: z.string(),
    address: z.string(),
    lot: z.string(),
    community: z.object({ name: z.string() }),
  }),
  ruleSet: z.object({ key: z.string(), version: z.string(), title: z.string() }),
  verdicts: z.array(
    z.object({
      item: z.string(),
      title: z.string(),
      subjectLabel: z.string(),
      status: z.string(),
      reason: z.string(),
      cautions: z.array(z.string()),
      trace: z.object({ remarks: z.array(z.string()) }),
    }),
  ),
});
