import type { RuleSet } from '../schema/index.ts';
import { loadRuleSet, type TextFile } from '../load/index.ts';

// taken up by the test runner, so that the package itself reads no files
const texts = import.meta.glob('../../sets/*/*/*.yaml', { query: '?raw', import: 'default', eager: true });

/** The texts of one set's folder, with paths as a person would name them. */
export function textsOf(key: string, version: string): TextFile[] {
  return Object.entries(texts)
    .filter(([path]) => path.startsWith(`../../sets/${key}/${version}/`))
    .map(([path, text]) => ({ path: path.replace('../../', ''), text }));
}

export const commonPractice: RuleSet = loadRuleSet(textsOf('common-practice', '2026.1'));
export const energyCodeAsFirst: RuleSet = loadRuleSet(textsOf('energy-code-2018', '2018.1'), commonPractice);
export const energyCode: RuleSet = loadRuleSet(textsOf('energy-code-2018', '2018.2'), energyCodeAsFirst);
export const companyStrict: RuleSet = loadRuleSet(textsOf('company-strict', '2026.1'), commonPractice);
export const shippedSets: readonly RuleSet[] = [commonPractice, energyCode, companyStrict];
