import { loadRuleSet, parseText, type TextFile } from '../load/index.ts';
import type { RuleSet } from '../schema/index.ts';

// taken up by the test runner, so that the package itself reads no files
const texts = import.meta.glob('../../sets/*/*/*.yaml', { query: '?raw', import: 'default', eager: true });

/** The texts of one set's folder, with paths as a person would name them. */
export function textsOf(key: string, version: string): TextFile[] {
  return Object.entries(texts)
    .filter(([path]) => path.startsWith(`../../sets/${key}/${version}/`))
    .map(([path, text]) => ({ path: path.replace('../../', ''), text }));
}

export interface ShippedVersion {
  set: RuleSet;
  /** what it inherits from */
  base: ShippedVersion | undefined;
}

const versions = new Map<string, ShippedVersion>();

function version(key: string, number: string): ShippedVersion {
  const name = `${key} ${number}`;
  const known = versions.get(name);
  if (known) return known;
  const files = textsOf(key, number);
  const header = files.find(({ path }) => path.endsWith('/set.yaml'));
  if (!header) throw new Error(`there is no sets/${key}/${number}/set.yaml`);
  const { inherits } = parseText(header).data as { inherits?: { key: string; version: string } };
  const base = inherits && version(inherits.key, inherits.version);
  const made = { set: loadRuleSet(files, base?.set), base };
  versions.set(name, made);
  return made;
}

/** Every version that is shipped, whether or not a later one took its place. */
export const shippedVersions: readonly ShippedVersion[] = Object.keys(texts)
  .filter((path) => path.endsWith('/set.yaml'))
  .map((path) => path.split('/').slice(-3))
  .map(([key = '', number = '']) => version(key, number));

/** What a version says itself: items that are not, word for word, those of the set it inherits from. */
export const ownItems = ({ set, base }: ShippedVersion) =>
  set.items.filter((item) => !base?.set.items.includes(item));

export const commonPractice: RuleSet = version('common-practice', '2026.1').set;
export const energyCodeAsFirst: RuleSet = version('energy-code-2018', '2018.1').set;
export const energyCode: RuleSet = version('energy-code-2018', '2018.2').set;
export const companyStrict: RuleSet = version('company-strict', '2026.1').set;
/** The newest version of each. */
export const shippedSets: readonly RuleSet[] = [
  version('common-practice', '2026.2').set,
  version('energy-code-2018', '2018.3').set,
  version('company-strict', '2026.2').set,
];
