import type { Item, ItemChanges, RuleSet, SetFile } from './schema/index.ts';

export interface Inheritance {
  set: RuleSet;
  /** sentences on what cannot be done, e.g. changing an item that is not inherited */
  problems: { item: string | null; message: string }[];
}

const isChange = (given: Item | ItemChanges): given is ItemChanges => 'changes' in given;

function withoutUndefined<T extends object>(given: T): T {
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as T;
}

/**
 * Builds the complete set from its header, its own items and the set it inherits from. An item with
 * `changes` keeps every field of the inherited item that it does not name; a whole item replaces the
 * inherited one; `without` drops. Inherited items keep their order, new ones follow.
 */
export function resolveInheritance(
  file: SetFile,
  own: readonly (Item | ItemChanges)[],
  base: RuleSet | null,
): Inheritance {
  const problems: Inheritance['problems'] = [];
  const items = new Map((base?.items ?? []).map((each) => [each.item, each]));
  for (const key of file.without ?? [])
    if (!items.delete(key)) problems.push({ item: null, message: `"${key}" is left out but not inherited` });
  const order = file.items ?? [];
  const place = (each: Item | ItemChanges) =>
    order.includes(each.item) ? order.indexOf(each.item) : order.length;
  for (const each of [...own].sort((a, b) => place(a) - place(b))) {
    const inherited = items.get(each.item);
    if (!isChange(each)) items.set(each.item, each);
    else if (inherited) items.set(each.item, withoutUndefined({ ...inherited, ...each.changes }) as Item);
    else problems.push({ item: each.item, message: `"${each.item}" is changed but not inherited` });
  }
  const { items: _order, without: _without, ...header } = file;
  return { set: withoutUndefined({ ...header, items: [...items.values()] }) as RuleSet, problems };
}
