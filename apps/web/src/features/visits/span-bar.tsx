import { ActionIcon, Button, TextInput } from '@mantine/core';
import { IconChevronLeft, IconChevronRight } from '@tabler/icons-react';
import { visits } from '@countercheck/contracts';
import { ChoiceFilter } from '../../components/table/index.ts';
import { addDays, showDate } from '../../lib/dates.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { visitStateWords } from '../../lib/words/work.ts';
import { optionsOf } from '../../components/fields/index.ts';

interface SpanBarProps {
  span: 'day' | 'week';
  date: string;
  from: string;
  to: string;
}

/** Moves through days or weeks, and narrows them to a rater or a state. */
export function SpanBar({ span, date, from, to }: SpanBarProps) {
  const { change } = useListSearch();
  const raters = useRoute(visits.raters, {});
  const step = span === 'day' ? 1 : 7;
  const move = (days: number) => change({ date: addDays(date, days) });
  return (
    <div className="stack">
      <div className="row">
        <ActionIcon variant="default" size="lg" aria-label={`Earlier ${span}`} onClick={() => move(-step)}>
          <IconChevronLeft size={18} />
        </ActionIcon>
        <strong role="status">{from === to ? showDate(from) : `${showDate(from)} – ${showDate(to)}`}</strong>
        <ActionIcon variant="default" size="lg" aria-label={`Later ${span}`} onClick={() => move(step)}>
          <IconChevronRight size={18} />
        </ActionIcon>
        <Button variant="default" onClick={() => change({ date: null })}>
          Today
        </Button>
      </div>
      <div className="filters">
        <TextInput
          type="date"
          label="Date"
          value={date}
          onChange={(event) => event.currentTarget.value && change({ date: event.currentTarget.value })}
        />
        <ChoiceFilter label="Show" name="span" none="A week" options={[{ value: 'day', label: 'A day' }]} />
        <ChoiceFilter
          label="Rater"
          name="raterId"
          none="Every rater"
          options={(raters.data ?? []).map(({ id, name }) => ({ value: id, label: name }))}
        />
        <ChoiceFilter label="State" name="state" none="Any state" options={optionsOf(visitStateWords)} />
      </div>
    </div>
  );
}
