import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { RuleSet } from '../schema/index.ts';
import { loadRuleSet, type TextFile } from '../load/index.ts';

const folder = fileURLToPath(new URL('../../sets/', import.meta.url));

/** The texts of one set's folder, with paths as a person would name them. */
export function textsOf(key: string, version: string): TextFile[] {
  const place = `${folder}${key}/${version}/`;
  return readdirSync(place)
    .sort()
    .map((name) => ({ path: `sets/${key}/${version}/${name}`, text: readFileSync(place + name, 'utf8') }));
}

export const commonPractice: RuleSet = loadRuleSet(textsOf('common-practice', '2026.1'));
export const energyCode: RuleSet = loadRuleSet(textsOf('energy-code-2018', '2018.1'), commonPractice);
export const companyStrict: RuleSet = loadRuleSet(textsOf('company-strict', '2026.1'), commonPractice);
export const shippedSets: readonly RuleSet[] = [commonPractice, energyCode, companyStrict];
