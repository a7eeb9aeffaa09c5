import { Textarea } from '@mantine/core';
import { useState, type ComponentProps } from 'react';
import { Confirm } from './confirm.tsx';

interface ConfirmWordsProps extends Omit<ComponentProps<typeof Confirm>, 'onConfirm' | 'disabled'> {
  /** what the words are: a note, a reason */
  label: string;
  /** it cannot be done without them */
  required?: boolean;
  description?: string;
  maxLength?: number;
  proposed?: string;
  onConfirm: (words: string) => Promise<unknown>;
}

/** Asks before something that cannot simply be taken back, and for a few words about it. */
export function ConfirmWords({
  label,
  required = false,
  description,
  maxLength,
  proposed = '',
  onConfirm,
  children,
  ...confirm
}: ConfirmWordsProps) {
  const [words, setWords] = useState(proposed);
  return (
    <Confirm
      {...confirm}
      disabled={required && words.trim() === ''}
      onConfirm={async () => {
        await onConfirm(words.trim());
        setWords(proposed);
      }}
    >
      {children}
      <Textarea
        label={label}
        description={description ?? (required ? null : 'May be left out.')}
        autosize
        required={required}
        maxLength={maxLength}
        value={words}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
    </Confirm>
  );
}
