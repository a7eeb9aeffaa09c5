import type { UseQueryResult } from '@tanstack/react-query';
import type { Option } from './choice.tsx';

export interface Found {
  options: Option[];
  /** what is said where there is none: that nothing was found is known only once the service has answered */
  none: string;
}

/** What the service found, as options. */
export function found<Item>(
  { data, isError }: Pick<UseQueryResult<{ items: Item[] }>, 'data' | 'isError'>,
  /** null leaves an item out */
  optionOf: (item: Item) => Option | null,
): Found {
  if (isError) return { options: [], none: 'The list cannot be loaded now; try again' };
  return {
    options: (data?.items ?? []).flatMap((item) => optionOf(item) ?? []),
    none: data ? 'Nothing found' : 'Looking…',
  };
}
