import { ActionIcon, Button } from '@mantine/core';
import { IconPlus, IconTrash } from '@tabler/icons-react';
import type { ReactNode } from 'react';
import type { AnyForm } from '../../lib/forms/index.ts';
import './house-form.css';

interface PartRowsProps {
  form: AnyForm;
  path: string;
  title: string;
  /** what one of them is called, as in "Add a system" */
  one: string;
  blank: Record<string, unknown>;
  row: (path: string) => ReactNode;
}

/** A growing list of parts, each a row of fields. */
export function PartRows({ form, path, title, one, blank, row }: PartRowsProps) {
  const rows = (form.getInputProps(path).value ?? []) as { label?: string }[];
  return (
    <fieldset className="parts">
      <legend>{title}</legend>
      {rows.map((part, index) => (
        // The fields are controlled by position, so the position is the key.
        <div className="parts-row" key={index}>
          <div className="fields">{row(`${path}.${index}`)}</div>
          <ActionIcon
            variant="subtle"
            color="red"
            size="lg"
            aria-label={`Remove ${part.label || `${one} ${index + 1}`}`}
            onClick={() => form.removeListItem(path, index)}
          >
            <IconTrash size={18} />
          </ActionIcon>
        </div>
      ))}
      <Button
        variant="default"
        size="xs"
        leftSection={<IconPlus size={14} />}
        onClick={() => form.insertListItem(path, { ...blank })}
      >
        Add {one}
      </Button>
    </fieldset>
  );
}
