import { ActionIcon, Button, TextInput } from '@mantine/core';
import { IconPlus, IconTrash } from '@tabler/icons-react';
import { Choice, QuantityInput } from '../../components/fields/index.ts';
import type { AnyForm } from '../../lib/forms/index.ts';
import { newRange, type RangeFields } from './range-fields.ts';
import { TableFields } from './table/table-fields.tsx';

const ways = [
  { value: 'coefficients', label: 'Coefficients: flow = c × Pa ^ n' },
  { value: 'table', label: 'A table of pressures and flows' },
];

/** The ranges of a flow device, each by its coefficients or by its maker's table. */
export function Ranges({ form, ranges }: { form: AnyForm; ranges: readonly RangeFields[] }) {
  const field = form.getInputProps;
  return (
    <fieldset className="ranges">
      <legend>Ranges (ring, plate or hole setting)</legend>
      {ranges.map((fields, index) => {
        const path = `ranges.${index}`;
        return (
          <div className="ranges-range" role="group" aria-label={`Range ${index + 1}`} key={index}>
            <div className="row ranges-row">
              <TextInput label="Range" {...field(`${path}.range`)} />
              <Choice className="ranges-way" label="Calibrated by" options={ways} {...field(`${path}.by`)} />
              <ActionIcon
                variant="subtle"
                color="red"
                size="lg"
                aria-label={`Remove range ${index + 1}`}
                onClick={() => form.removeListItem('ranges', index)}
              >
                <IconTrash size={18} />
              </ActionIcon>
            </div>
            {fields.by === 'table' ? (
              <TableFields form={form} path={path} fields={fields} />
            ) : (
              <div className="row ranges-row">
                <QuantityInput kind="ratio" label="c, for cfm" {...field(`${path}.c`)} />
                <QuantityInput kind="ratio" label="n" {...field(`${path}.n`)} />
                <QuantityInput kind="ratio" label="From, Pa" {...field(`${path}.minPa`)} />
                <QuantityInput kind="ratio" label="To, Pa" {...field(`${path}.maxPa`)} />
              </div>
            )}
          </div>
        );
      })}
      <Button
        size="xs"
        variant="default"
        leftSection={<IconPlus size={14} />}
        onClick={() => form.insertListItem('ranges', newRange)}
      >
        Add a range
      </Button>
    </fieldset>
  );
}
