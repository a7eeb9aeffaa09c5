import { TextInput } from '@mantine/core';
import { correctiveActions, visits } from '@countercheck/contracts';
import { showTime } from '../../lib/dates.ts';
import { hasCode } from '../../lib/problem.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { Caution } from '../marks/index.ts';
import { Moment } from '../page/index.ts';
import { Choice } from '../fields/index.ts';
import type { AnyForm } from '../../lib/forms/index.ts';

interface TimeFieldsProps {
  form: AnyForm;
  problem: unknown;
  /** the visit being moved, which is no obstacle to itself */
  except?: string;
}

/** Rater, day and times, with what the rater has booked that day and what the server says against it. */
export function TimeFields({ form, problem, except }: TimeFieldsProps) {
  const { raterId, day } = form.getValues() as { raterId: string | null; day: string };
  const raters = useRoute(visits.raters, {});
  const holds = useRoute(correctiveActions.bookingHolds, {});
  const hold = holds.data?.find((each) => each.raterId === raterId);
  const doubleBooked = hasCode(problem, 'rater-double-booked');
  const field = form.getInputProps;
  return (
    <>
      <div className="fields">
        <Choice
          label="Rater"
          none="Choose a rater"
          options={(raters.data ?? []).map(({ id, name }) => ({
            value: id,
            label: holds.data?.some((each) => each.raterId === id) ? `${name} (held)` : name,
          }))}
          {...field('raterId')}
        />
        <TextInput
          type="date"
          label="Day"
          {...field('day')}
          error={form.errors.startsAt ?? form.errors.day}
        />
        <TextInput type="time" label="Start" {...field('start')} error={doubleBooked && 'Booked already'} />
        <TextInput
          type="time"
          label="End"
          {...field('end')}
          error={form.errors.endsAt ?? (doubleBooked && 'Booked already')}
        />
      </div>
      {doubleBooked && (
        <Caution title="The rater is booked at that time">
          <p>{(problem as Error).message}</p>
          <p>Choose another time or another rater.</p>
        </Caution>
      )}
      {hold && (
        <Caution title="This rater is held">
          <p>
            From <Moment at={hold.from} day /> on nothing can be booked for him: {hold.reason}
          </p>
        </Caution>
      )}
      {raterId && day && <DayOfRater raterId={raterId} day={day} {...(except ? { except } : {})} />}
    </>
  );
}

function DayOfRater({ raterId, day, except }: { raterId: string; day: string; except?: string }) {
  const zone = useMe().company.timezone;
  const { data } = useRoute(visits.list, { query: { raterId, from: day, to: day, pageSize: 50 } });
  if (!data) return null;
  const taken = data.items.filter((visit) => visit.state !== 'cancelled' && visit.id !== except);
  return (
    <div className="small soft" role="status">
      {taken.length === 0
        ? 'The rater has nothing else that day.'
        : `That day: ${taken
            .map(
              (visit) =>
                `${showTime(visit.startsAt, zone)}–${showTime(visit.endsAt, zone)} ${visit.house.address}`,
            )
            .join('; ')}`}
    </div>
  );
}
