import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { publishedJsonSchemas } from '@countercheck/rules';

/** Writes the JSON Schemas of rule sets, for editors and other people's tools. Usage: npm run schemas */
const folder = join(import.meta.dirname, '../packages/rules/schema');
mkdirSync(folder, { recursive: true });
for (const [name, schema] of Object.entries(publishedJsonSchemas()))
  writeFileSync(join(folder, name), `${JSON.stringify(schema, null, 2)}\n`);
