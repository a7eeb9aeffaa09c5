import { Checkbox } from '@mantine/core';
import type { ConfirmationDefinition } from '@countercheck/measurement';
import './reading-form.css';

interface Props {
  confirmations: readonly ConfirmationDefinition[];
  ticked: Record<string, boolean>;
  problems: Record<string, string>;
  onChange(ticked: Record<string, boolean>): void;
}

/** What must be set up before the reading counts, ticked one by one. */
export function Confirmations({ confirmations, ticked, problems, onChange }: Props) {
  if (confirmations.length === 0) return null;
  return (
    <fieldset className="big-choices">
      <legend>Set up, then tick</legend>
      {confirmations.map(({ key, label }) => (
        <Checkbox
          key={key}
          size="md"
          label={label}
          checked={ticked[key] ?? false}
          error={problems[`confirmations.${key}`] ? 'Set it up, then tick it.' : undefined}
          onChange={(event) => onChange({ ...ticked, [key]: event.currentTarget.checked })}
        />
      ))}
    </fieldset>
  );
}
