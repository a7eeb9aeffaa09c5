import { ActionIcon, Button, TextInput } from '@mantine/core';
import { IconChevronLeft, IconChevronRight } from '@tabler/icons-react';
import { Page } from '../../../components/page/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { addDays, showWeekday, today } from '../../../lib/dates.ts';
import { useListSearch } from '../../../lib/list-search.ts';
import { useMe } from '../../../lib/session.ts';
import { useVisitsOf } from '../data/sheet.ts';
import { ReturnedFiles } from '../returned/returned-files.tsx';
import { VisitCard } from './visit-card.tsx';
import '../fieldwork.css';

const isDate = /^\d{4}-\d{2}-\d{2}$/;

/** The rater's houses of a day in the order of the clock. */
export default function DayPage() {
  const me = useMe();
  const now = today(me.company.timezone);
  const { values, change } = useListSearch();
  const day = values.day && isDate.test(values.day) ? values.day : now;
  const show = (next: string) => change({ day: next === now ? null : next });
  const query = useVisitsOf(day, me.id);
  return (
    <Page
      width="sheet"
      title={day === now ? 'My day' : showWeekday(day)}
      lead={day === now && showWeekday(day)}
    >
      <div className="day-switch" role="group" aria-label="Day">
        <ActionIcon
          size={50}
          variant="default"
          aria-label="The day before"
          onClick={() => show(addDays(day, -1))}
        >
          <IconChevronLeft aria-hidden="true" />
        </ActionIcon>
        <TextInput
          type="date"
          size="lg"
          aria-label="Day shown"
          value={day}
          onChange={(event) => isDate.test(event.currentTarget.value) && show(event.currentTarget.value)}
        />
        <ActionIcon
          size={50}
          variant="default"
          aria-label="The day after"
          onClick={() => show(addDays(day, 1))}
        >
          <IconChevronRight aria-hidden="true" />
        </ActionIcon>
        {day !== now && (
          <Button size="lg" variant="default" onClick={() => show(now)}>
            Today
          </Button>
        )}
      </div>
      <ReturnedFiles />
      <Asked query={query} what="Loading the day’s houses">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No house is booked for you on this day" />
          ) : (
            <ul className="visit-list">
              {items
                .toSorted((a, b) => a.startsAt.localeCompare(b.startsAt))
                .map((visit) => (
                  <VisitCard key={visit.id} visit={visit} />
                ))}
            </ul>
          )
        }
      </Asked>
    </Page>
  );
}
