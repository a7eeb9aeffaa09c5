import { describe, expect, it } from 'vitest';
import { publishedJsonSchemas } from './jsonSchema.ts';

const texts = import.meta.glob('../../schema/*.json', { query: '?raw', import: 'default', eager: true });
const onDisk = Object.fromEntries(
  Object.entries(texts).map(([path, text]) => [path.split('/').pop()!, JSON.parse(text) as unknown]),
);

describe('the published JSON Schemas', () => {
  it('are those of the code; `npm run schemas` writes them', () => {
    expect(onDisk).toEqual(JSON.parse(JSON.stringify(publishedJsonSchemas())));
  });

  it('describe every criterion and every limit of the closed lists', () => {
    const text = JSON.stringify(onDisk['rule-set.schema.json']);
    for (const check of ['at-most', 'at-least', 'above', 'between', 'at-most-share-of', 'balanced-within'])
      expect(text).toContain(`"const":"${check}"`);
    for (const kind of ['constant', 'per-area', 'by-zone', 'formula', 'factor-of'])
      expect(text).toContain(`"const":"${kind}"`);
  });
});
