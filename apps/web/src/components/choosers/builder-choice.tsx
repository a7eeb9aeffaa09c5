import { builders } from '@countercheck/contracts';
import { useRoute } from '../../lib/query.ts';
import { found, SearchChoice } from '../fields/index.ts';

const useBuildersFound = (search: string) =>
  found(
    useRoute(builders.list, { query: { search, pageSize: 20 } }, { keepPrevious: true }),
    ({ id, name }) => ({ value: id, label: name }),
  );

interface BuilderChoiceProps {
  label?: string;
  value: string | null;
  onChange: (value: string | null) => void;
  error?: string | undefined;
  disabled?: boolean;
  placeholder?: string;
}

/** One of the company's builders, found by name. */
export function BuilderChoice({ label = 'Builder', value, ...rest }: BuilderChoiceProps) {
  // The address may name a builder that the first words typed would not find.
  const known = useRoute(builders.show, { params: { id: value ?? '' } }, { enabled: Boolean(value) });
  if (value && !known.data && known.isLoading) return null;
  return (
    <SearchChoice
      label={label}
      value={value}
      useFound={useBuildersFound}
      chosenLabel={known.data?.name}
      {...rest}
    />
  );
}
