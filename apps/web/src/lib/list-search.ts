import { useNavigate, useSearch } from '@tanstack/react-router';

export type ListSearch = Record<string, string | undefined>;

/** A list's filters, order and page as they stand in the address, so that a link or "back" shows the same. */
export function useListSearch() {
  const search: Record<string, unknown> = useSearch({ strict: false });
  const navigate = useNavigate();
  const values: ListSearch = Object.fromEntries(
    Object.entries(search).map(([key, value]) => [key, value === undefined ? undefined : String(value)]),
  );

  /** Changes filters; a changed filter starts again at the first page. */
  function change(changes: Record<string, string | null | undefined>, keepPage = false) {
    const next: ListSearch = { ...values, ...(keepPage ? {} : { page: undefined }) };
    for (const [key, value] of Object.entries(changes)) next[key] = value || undefined;
    void navigate({ to: '.', search: next, replace: true });
  }

  return { values, page: Number(values.page ?? 1) || 1, change };
}

/** The one of the list that a filter in the address names, if it is one of the list. */
export function oneOf<const T extends string>(list: readonly T[], value: string | undefined): T | undefined {
  return list.find((each) => each === value);
}
