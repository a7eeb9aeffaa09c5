import { scheduling, visits, bookBody, failedItems, houses, service } from '@countercheck/contracts';
import { Doubts, TimeFields, instantsOf } from '../../../components/booking/index.ts';
import { Dialog, FormBody, said } from '../../../components/feedback/index.ts';
import { showDate } from '../../../lib/dates.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { hasCode } from '../../../lib/problem.ts';
import { useAction } from '../../../lib/query.ts';
import { useMe } from '../../../lib/session.ts';
import { deadlineWords, durationWords } from '../../../lib/words/scheduling.ts';
import { visitKindWords } from '../../../lib/words/work.ts';
import { houseOf, kindOf, type Placing, type Thing } from './place.ts';

const touched = [
  ...[scheduling.board, scheduling.requests, scheduling.request, scheduling.tryVisit, visits.list],
  ...[houses.show, houses.list, houses.events, failedItems.requests, service.overview],
];

/** Puts a request or a visit in its place; what is doubtful about it is said before it is done. */
export function PlaceDialog({ placing, onClose }: { placing: Placing; onClose: () => void }) {
  const zone = useMe().company.timezone;
  const { thing } = placing;
  const house = houseOf(thing);
  const book = useAction(visits.book, { invalidates: touched });
  const move = useAction(visits.move, { invalidates: touched });
  const of = useContractForm({
    schema: 'request' in thing ? bookBody : visits.move.body,
    initialValues: { raterId: placing.raterId, day: placing.day, start: placing.start, end: placing.end },
    toBody: ({ raterId, day, start, end }) => ({
      ...{ raterId: raterId ?? '', ...instantsOf({ day, start, end }, zone) },
      ...('request' in thing
        ? { houseId: house.id, kind: thing.request.kind, visitRequestId: thing.request.id }
        : {}),
    }),
    send: async (body) => {
      if ('request' in thing)
        await book.mutateAsync({
          body: {
            ...{ ...body, houseId: house.id, kind: thing.request.kind },
            visitRequestId: thing.request.id,
          },
        });
      else await move.mutateAsync({ params: { id: thing.visit.id }, body });
      said('request' in thing ? 'Visit booked' : 'Visit moved');
      onClose();
    },
  });
  const except = 'visit' in thing ? { except: thing.visit.id } : {};
  const title =
    'request' in thing ? `Book a visit to ${house.address}` : `Move the visit to ${house.address}`;
  return (
    <Dialog title={title} onClose={onClose}>
      <FormBody
        of={of}
        action={'request' in thing ? 'Book' : 'Move'}
        onCancel={onClose}
        quiet={hasCode(of.problem, 'rater-double-booked')}
      >
        <Wanted thing={thing} />
        <TimeFields form={of.form} problem={of.problem} {...except} />
        <Doubts
          houseId={house.id}
          kind={kindOf(thing)}
          {...('request' in thing ? { requestId: thing.request.id } : { visitId: thing.visit.id })}
          {...of.form.getValues()}
        />
      </FormBody>
    </Dialog>
  );
}

function Wanted({ thing }: { thing: Thing }) {
  if (!('request' in thing)) return <p className="soft">{visitKindWords[thing.visit.kind]}</p>;
  const { kind, minutes, earliestOn, deadlineOn, deadlineWhy, openFrom, openTo } = thing.request;
  return (
    <p className="soft">
      {visitKindWords[kind]}, about {durationWords(minutes)}, from {showDate(earliestOn)}
      {deadlineOn && `, by ${showDate(deadlineOn)} (${deadlineWords[deadlineWhy ?? 'agreed'].toLowerCase()})`}
      {openFrom && `, somebody is there ${openFrom} – ${openTo}`}
    </p>
  );
}
