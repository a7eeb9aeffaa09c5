import { TextInput } from '@mantine/core';
import { useDebouncedCallback } from '@mantine/hooks';
import { IconSearch } from '@tabler/icons-react';
import { useState } from 'react';
import { useListSearch } from '../../lib/list-search.ts';
import { Choice, type Option } from '../fields/choice.tsx';

/** Words to find, kept in the address once typing pauses. */
export function SearchFilter({ label, name = 'search' }: { label: string; name?: string }) {
  const { values, change } = useListSearch();
  const [text, setText] = useState(values[name] ?? '');
  const keep = useDebouncedCallback((next: string) => change({ [name]: next.trim() }), 300);
  return (
    <TextInput
      label={label}
      type="search"
      value={text}
      leftSection={<IconSearch size={16} aria-hidden="true" />}
      onChange={(event) => {
        setText(event.currentTarget.value);
        keep(event.currentTarget.value);
      }}
    />
  );
}

interface ChoiceFilterProps {
  label: string;
  name: string;
  options: readonly Option[];
  none?: string;
}

/** One of a list to filter by. */
export function ChoiceFilter({ label, name, options, none }: ChoiceFilterProps) {
  const { values, change } = useListSearch();
  return (
    <Choice
      label={label}
      options={options}
      value={values[name] ?? null}
      onChange={(value) => change({ [name]: value })}
      {...(none === undefined ? {} : { none })}
    />
  );
}
