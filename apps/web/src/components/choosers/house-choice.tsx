import { houses } from '@countercheck/contracts';
import { useRoute } from '../../lib/query.ts';
import { found, SearchChoice } from '../fields/index.ts';

const useHousesFound = (search: string) =>
  found(
    useRoute(houses.list, { query: { search, pageSize: 20 } }, { keepPrevious: true }),
    ({ id, address, lot, community }) => ({ value: id, label: `${address}, lot ${lot}, ${community.name}` }),
  );

interface HouseChoiceProps {
  value: string | null;
  onChange: (value: string | null) => void;
  error?: string | undefined;
}

/** One house, found by part of its address or lot. */
export function HouseChoice({ value, onChange, error }: HouseChoiceProps) {
  return (
    <SearchChoice
      label="House"
      placeholder="Part of the address or lot"
      value={value}
      onChange={onChange}
      useFound={useHousesFound}
      error={error}
    />
  );
}
