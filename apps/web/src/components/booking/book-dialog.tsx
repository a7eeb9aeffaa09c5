import { Textarea } from '@mantine/core';
import {
  bookBody,
  failedItems,
  houses,
  scheduling,
  service,
  visits,
  type Visit,
} from '@countercheck/contracts';
import type { BodyOf } from '../../lib/client.ts';
import { today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { hasCode } from '../../lib/problem.ts';
import { useAction } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { visitKindWords } from '../../lib/words/work.ts';
import { HouseChoice } from '../choosers/index.ts';
import { Dialog, FormBody, said } from '../feedback/index.ts';
import { Choice, optionsOf } from '../fields/index.ts';
import { Doubts } from './doubts.tsx';
import { TimeFields } from './time-fields.tsx';
import { instantsOf } from './times.ts';

interface BookDialogProps {
  house?: { id: string; address: string };
  /** the request that this visit answers */
  requestId?: string;
  day?: string;
  kind?: 'final' | 'quality';
  onClose: () => void;
}

/** Books a visit for a rater. */
export function BookDialog({ house, requestId, day, kind = 'final', onClose }: BookDialogProps) {
  const zone = useMe().company.timezone;
  const book = useAction(visits.book, {
    invalidates: [
      scheduling.board,
      scheduling.requests,
      visits.list,
      houses.show,
      houses.list,
      houses.events,
      failedItems.requests,
      service.overview,
    ],
  });
  const of = useContractForm({
    schema: bookBody,
    initialValues: {
      houseId: house?.id ?? (null as string | null),
      raterId: null as string | null,
      kind: requestId ? 'reinspection' : kind,
      day: day ?? today(zone),
      start: '09:00',
      end: '12:00',
      note: '',
    },
    toBody: ({ day, start, end, ...rest }) =>
      ({
        ...rest,
        ...instantsOf({ day, start, end }, zone),
        reinspectionRequestId: requestId ?? null,
      }) as BodyOf<typeof visits.book>,
    send: async (body) => {
      await book.mutateAsync({ body });
      said('Visit booked');
      onClose();
    },
  });
  const { houseId, kind: chosen, ...place } = of.form.getValues();
  return (
    <Dialog title={house ? `Book a visit to ${house.address}` : 'Book a visit'} onClose={onClose}>
      <FormBody of={of} action="Book" onCancel={onClose} quiet={hasCode(of.problem, 'rater-double-booked')}>
        {!house && (
          <HouseChoice
            value={of.form.getValues().houseId}
            onChange={(id) => of.form.setFieldValue('houseId', id)}
            error={of.form.errors.houseId as string | undefined}
          />
        )}
        <Choice
          label="Kind of visit"
          options={optionsOf(visitKindWords)}
          disabled={Boolean(requestId) || kind === 'quality'}
          {...of.form.getInputProps('kind')}
        />
        <TimeFields form={of.form} problem={of.problem} />
        <Doubts houseId={houseId} kind={chosen as Visit['kind']} {...place} />
        <Textarea label="Note for the rater" autosize minRows={2} {...of.form.getInputProps('note')} />
      </FormBody>
    </Dialog>
  );
}
