import { TextInput } from '@mantine/core';
import { BuilderChoice } from '../../../components/choosers/index.ts';
import { optionsOf } from '../../../components/fields/index.ts';
import { ChoiceFilter } from '../../../components/table/index.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { tradeWords } from '../../../lib/words/people.ts';

/** What all parts of the board look at. */
export function BoardFilters() {
  const { values, change } = useListSearch();
  const day = (name: 'from' | 'to', label: string) => (
    <TextInput
      type="date"
      label={label}
      value={values[name] ?? ''}
      onChange={(event) => change({ [name]: event.currentTarget.value })}
    />
  );
  return (
    <div className="filters board-filters" role="search" aria-label="Filter: what fails">
      {day('from', 'First day')}
      {day('to', 'Last day')}
      <BuilderChoice
        placeholder="Any builder"
        value={values.builderId ?? null}
        onChange={(builderId) => change({ builderId })}
      />
      <ChoiceFilter label="Trade" name="trade" none="Any trade" options={optionsOf(tradeWords)} />
    </div>
  );
}
