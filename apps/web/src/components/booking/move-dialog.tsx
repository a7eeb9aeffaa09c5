import { Textarea } from '@mantine/core';
import { houses, scheduling, visits, type Visit } from '@countercheck/contracts';
import { clockOf } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { hasCode } from '../../lib/problem.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { Dialog, FormBody, said } from '../feedback/index.ts';
import { Doubts } from './doubts.tsx';
import { TimeFields } from './time-fields.tsx';
import { instantsOf } from './times.ts';

/** Moves a booked visit or gives it to another rater. */
export function MoveDialog({ visit, onClose }: { visit: Visit; onClose: () => void }) {
  const zone = useMe().company.timezone;
  const move = useAction(visits.move, { invalidates: [scheduling.board, visits.list, houses.events] });
  const start = clockOf(visit.startsAt, zone);
  const of = useContractForm({
    schema: visits.move.body,
    initialValues: {
      raterId: visit.rater.id,
      day: start.date,
      start: start.time,
      end: clockOf(visit.endsAt, zone).time,
      note: visit.note ?? '',
    },
    toBody: ({ raterId, note, day, start, end }) => ({
      raterId,
      note,
      ...instantsOf({ day, start, end }, zone),
    }),
    send: async (body) => {
      await move.mutateAsync({ params: { id: visit.id }, body });
      said('Visit moved');
      onClose();
    },
  });
  const { raterId, day, start: from, end } = of.form.getValues();
  const place = { raterId, day, start: from, end };
  return (
    <Dialog title={`Move the visit to ${visit.house.address}`} onClose={onClose}>
      <FormBody of={of} action="Move" onCancel={onClose} quiet={hasCode(of.problem, 'rater-double-booked')}>
        <TimeFields form={of.form} problem={of.problem} except={visit.id} />
        <Doubts houseId={visit.house.id} kind={visit.kind} visitId={visit.id} {...place} />
        <Textarea label="Note for the rater" autosize minRows={2} {...of.form.getInputProps('note')} />
      </FormBody>
    </Dialog>
  );
}
