import { Button } from '@mantine/core';
import { visits, visitStates } from '@countercheck/contracts';
import { useState } from 'react';
import { BookDialog } from '../../components/booking/index.ts';
import { Page } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { addDays, today, weekStart } from '../../lib/dates.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe, useRole } from '../../lib/session.ts';
import { DayPanels } from './day-panels.tsx';
import { SpanBar } from './span-bar.tsx';

/** The visits of a day or of a week, day by day. */
export default function VisitsPage() {
  const zone = useMe().company.timezone;
  const keeper = useRole('office', 'administrator');
  const { values } = useListSearch();
  const span = values.span === 'day' ? 'day' : 'week';
  const chosen = values.date ?? today(zone);
  const from = span === 'day' ? chosen : weekStart(chosen);
  const to = span === 'day' ? chosen : addDays(from, 6);
  const query = useRoute(
    visits.list,
    {
      query: {
        from,
        to,
        raterId: values.raterId,
        state: oneOf(visitStates, values.state),
        pageSize: 100,
      },
    },
    { keepPrevious: true },
  );
  const [bookingDay, setBookingDay] = useState<string | null>(null);
  return (
    <Page
      title="Visits"
      actions={keeper && <Button onClick={() => setBookingDay(chosen)}>Book a visit</Button>}
    >
      <SpanBar span={span} date={chosen} from={from} to={to} />
      <Asked query={query}>
        {({ items, total }) => (
          <>
            {total > items.length && (
              <p className="soft">
                The first {items.length} of {total} visits; choose a rater to see the others.
              </p>
            )}
            <DayPanels from={from} to={to} visits={items} {...(keeper ? { onBook: setBookingDay } : {})} />
          </>
        )}
      </Asked>
      {bookingDay && <BookDialog day={bookingDay} onClose={() => setBookingDay(null)} />}
    </Page>
  );
}
