import { visits } from '@countercheck/contracts';
import { useRoute } from '../../lib/query.ts';
import { Choice } from '../fields/choice.tsx';

interface RaterChoiceProps {
  label?: string;
  /** words for "none chosen" */
  none?: string;
  value: string | null;
  onChange: (value: string | null) => void;
  error?: string | undefined;
}

/** One of the company's raters. */
export function RaterChoice({ label = 'Rater', none = 'Any rater', ...rest }: RaterChoiceProps) {
  const raters = useRoute(visits.raters, {});
  const options = (raters.data ?? []).map(({ id, name }) => ({ value: id, label: name }));
  return <Choice label={label} none={none} options={options} {...rest} />;
}
