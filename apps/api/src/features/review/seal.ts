import { createHash } from 'node:crypto';
import * as z from 'zod';
import { canonicalText } from '@countercheck/seal';
import type { Prisma } from '@countercheck/prisma';
import type { Software } from '../../kernel/versions/software.ts';
import type { CompiledRuleSet } from '../assessment/index.ts';
import type { fileParts } from './file-parts.ts';

const sealFormat = 'countercheck-file/1';

/** What a release seals: everything its verdicts rest on, so that they can be worked out again without us. */
export function contentOf(
  { records, assessed }: Awaited<ReturnType<typeof fileParts>>,
  released: { by: string; note: string | null },
  software: Software,
): Prisma.InputJsonObject {
  const { key, version, title, hash, set }: CompiledRuleSet = assessed.ruleSet;
  const { counts: _counts, updatedAt: _updatedAt, ...house } = records.house;
  const content = {
    format: sealFormat,
    revision: house.revision,
    released,
    software: { ...software },
    ...records,
    house,
    ruleSet: { key, version, title, hash, body: set },
    file: assessed.file,
    counts: assessed.scorecard.counts,
  };
  return JSON.parse(JSON.stringify(content)) as Prisma.InputJsonObject;
}

/** SHA-256 of the canonical JSON (RFC 8785), which does not hang on how a database orders its keys. */
export const hashOf = (content: unknown): string => textHash(canonicalText(content));

/** SHA-256 of a text in UTF-8. */
export const textHash = (text: string): string => createHash('sha256').update(text).digest('hex');

/** What a builder's result takes out of the sealed content. */
const sealedResultSchema = z.object({
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

/** The builder's result as the sealed content has it. */
export function resultOf(content: unknown) {
  const { house, ruleSet, verdicts } = sealedResultSchema.parse(content);
  const applying = verdicts.filter(({ status }) => status !== 'not-applicable');
  return {
    house: { ...house, community: house.community.name },
    ruleSet,
    items: verdicts.map(({ item, title, subjectLabel, status, reason }) => ({
      ...{ item, title, subjectLabel, status, reason },
    })),
    cautions: [...new Set(applying.flatMap(({ cautions, trace }) => [...cautions, ...trace.remarks]))],
  };
}

/**
 * The result as a text of its own whose hash goes into the log, so that a builder, who never sees the whole content,
 * can check what it was given. Never changed: another shape would be another format beside this one.
 */
export const resultText = (content: unknown): string =>
  canonicalText({ format: 'countercheck-result/1', ...resultOf(content) });
