import { Choice } from '../../../components/fields/index.ts';

const levels = ['90', '95', '99'];

/** How sure one wants to be. */
export function Confidence({ value, onChange }: { value: number; onChange: (value: number) => void }) {
  return (
    <Choice
      label="Confidence"
      options={levels.map((level) => ({ value: level, label: `${level} %` }))}
      value={String(Math.round(value * 100))}
      onChange={(level) => onChange(Number(level ?? 95) / 100)}
    />
  );
}
