import { NativeSelect, type NativeSelectProps } from '@mantine/core';

export interface Option {
  value: string;
  label: string;
}

interface ChoiceProps extends Omit<NativeSelectProps, 'data' | 'onChange' | 'value'> {
  options: readonly Option[];
  value?: string | null | undefined;
  onChange: (value: string | null) => void;
  /** words for "none chosen"; left out = one must be chosen */
  none?: string;
}

/** One of a short list. The device's own list opens, which works with gloves and with any reader. */
export function Choice({ options, value, onChange, none, ...rest }: ChoiceProps) {
  return (
    <NativeSelect
      {...rest}
      data={none === undefined ? [...options] : [{ value: '', label: none }, ...options]}
      value={value ?? ''}
      onChange={(event) => onChange(event.currentTarget.value || null)}
    />
  );
}

/** Options from words by value. */
export const optionsOf = (words: Record<string, string>): Option[] =>
  Object.entries(words).map(([value, label]) => ({ value, label }));
