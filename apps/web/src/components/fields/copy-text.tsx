import { Button, TextInput } from '@mantine/core';
import { useClipboard } from '@mantine/hooks';
import { IconCheck, IconCopy } from '@tabler/icons-react';

/** A text to hand on, with a button that copies it. */
export function CopyText({ label, text }: { label: string; text: string }) {
  const clipboard = useClipboard({ timeout: 4000 });
  return (
    <div className="copy-text">
      <TextInput label={label} value={text} readOnly onFocus={(event) => event.currentTarget.select()} />
      <Button
        variant="default"
        leftSection={clipboard.copied ? <IconCheck size={16} /> : <IconCopy size={16} />}
        onClick={() => clipboard.copy(text)}
      >
        {clipboard.copied ? 'Copied' : 'Copy'}
      </Button>
    </div>
  );
}
