import { Textarea } from '@mantine/core';
import { tableProblem } from '@countercheck/measurement';
import { Choice, optionsOf } from '../../../components/fields/index.ts';
import type { AnyForm } from '../../../lib/forms/index.ts';
import { FlowTable } from './flow-table.tsx';
import { flowUnits, pressureUnits, readTable } from './table-text.ts';
import type { RangeFields } from '../range-fields.ts';

interface TableFieldsProps {
  form: AnyForm;
  /** where the range stands in the form */
  path: string;
  fields: RangeFields;
}

/** A maker's table as typed or pasted, drawn while it is entered. */
export function TableFields({ form, path, fields }: TableFieldsProps) {
  const { rows, problem } = readTable(fields.text, fields.units);
  const wrong = problem ?? (rows.length === 0 ? null : (tableProblem(rows)?.message ?? null));
  const { error } = form.getInputProps(`${path}.table`) as { error?: string };
  return (
    <div className="stack">
      <div className="fields">
        <Choice
          label="Pressures in"
          options={optionsOf(pressureUnits)}
          {...form.getInputProps(`${path}.units.pressure`)}
        />
        <Choice
          label="Flows in"
          options={optionsOf(flowUnits)}
          {...form.getInputProps(`${path}.units.flow`)}
        />
      </div>
      <Textarea
        label="The maker’s table"
        description="One row a line: pressure, then flow. Rows can be pasted from a sheet."
        placeholder={'10\t16.2\n25\t25.4\n60\t39.8'}
        autosize
        minRows={4}
        maxRows={14}
        {...form.getInputProps(`${path}.text`)}
        error={wrong ?? error}
      />
      {wrong === null && rows.length > 0 && <FlowTable range={fields.range} table={rows} />}
    </div>
  );
}
