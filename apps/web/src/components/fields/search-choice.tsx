import { Select, type SelectProps } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import type { Option } from './choice.tsx';
import type { Found } from './found.ts';

interface SearchChoiceProps extends Omit<
  SelectProps,
  'data' | 'value' | 'onChange' | 'onSearchChange' | 'searchValue'
> {
  value?: string | null | undefined;
  onChange: (value: string | null) => void;
  /** a hook that finds what the words typed so far stand for; the server does the finding */
  useFound: (search: string) => Found;
  /** the label of the value when it is not among what was found */
  chosenLabel?: string | undefined;
}

/** One of a long list, found by typing. */
export function SearchChoice({ value, onChange, useFound, chosenLabel, ...rest }: SearchChoiceProps) {
  const [search, setSearch] = useState('');
  const [chosen, setChosen] = useState<Option | null>(
    value && chosenLabel ? { value, label: chosenLabel } : null,
  );
  const [asked] = useDebouncedValue(search, 200);
  // Once chosen, the field shows the choice; searching for its words would empty the list.
  const { options, none } = useFound(chosen?.label === asked ? '' : asked);
  const known = value && chosen?.value === value && !options.some((each) => each.value === value);
  return (
    <Select
      {...rest}
      searchable
      clearable
      data={known && chosen ? [chosen, ...options] : options}
      filter={(given) => given.options}
      value={value ?? null}
      onChange={(next) => {
        setChosen(options.find((each) => each.value === next) ?? null);
        onChange(next);
      }}
      searchValue={search}
      onSearchChange={setSearch}
      nothingFoundMessage={none}
    />
  );
}
