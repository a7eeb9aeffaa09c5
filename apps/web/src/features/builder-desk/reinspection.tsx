import { Button, Textarea, TextInput } from '@mantine/core';
import { failedItems, houses, type HouseDetail } from '@countercheck/contracts';
import { useState } from 'react';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import { DateText, Moment, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { requestStateWords } from './words.ts';

function AskForm({ houseId, onClose }: { houseId: string; onClose: () => void }) {
  const zone = useMe().company.timezone;
  const ask = useAction(failedItems.askReinspection, {
    invalidates: [failedItems.requests, failedItems.list, failedItems.show, houses.show, houses.list],
  });
  const contract = useContractForm({
    schema: failedItems.askReinspection.body,
    initialValues: { note: '', earliestOn: '' },
    toBody: ({ note, earliestOn }) => ({ note, earliestOn: earliestOn || null }),
    send: async (body) => {
      await ask.mutateAsync({ params: { id: houseId }, body });
      said('The office will book the reinspection.');
      onClose();
    },
  });
  const { form } = contract;
  return (
    <FormBody of={contract} action="Ask for the reinspection" onCancel={onClose}>
      <TextInput
        type="date"
        label="Earliest day"
        description="May be left out: as soon as possible."
        min={today(zone)}
        {...form.getInputProps('earliestOn')}
      />
      <Textarea
        label="Note for the office"
        description="How to get in, whom to call. May be left out."
        autosize
        minRows={2}
        {...form.getInputProps('note')}
      />
    </FormBody>
  );
}

/** Reinspections of a house that were asked for, and asking for one. */
export function Reinspection({ house }: { house: HouseDetail }) {
  const [asking, setAsking] = useState(false);
  const query = useRoute(failedItems.requests, { query: { houseId: house.id, pageSize: 100 } });
  if (house.openFailedItems === 0 && query.data?.items.length === 0) return null;
  const pending = query.data?.items.some(({ state }) => state === 'asked' || state === 'booked') ?? false;
  return (
    <Panel title="Reinspection">
      <div className="stack">
        <Asked query={query}>
          {({ items }) =>
            items.length > 0 && (
              <ul className="card-list">
                {items.map((request) => (
                  <li key={request.id}>
                    <strong>{requestStateWords[request.state]}</strong>, by {request.askedByName},{' '}
                    <Moment at={request.askedAt} />
                    {request.earliestOn && (
                      <>
                        , not before <DateText date={request.earliestOn} />
                      </>
                    )}
                    {request.note && <p className="soft">{request.note}</p>}
                  </li>
                ))}
              </ul>
            )
          }
        </Asked>
        {house.openFailedItems > 0 && !pending && (
          <>
            <p>
              Ask for it once everything is corrected; only what failed and what hangs on it is tested again.
            </p>
            <div>
              <Button size="md" onClick={() => setAsking(true)}>
                Ask for a reinspection
              </Button>
            </div>
          </>
        )}
      </div>
      {asking && (
        <Dialog title={`Reinspection of ${house.address}`} onClose={() => setAsking(false)}>
          <AskForm houseId={house.id} onClose={() => setAsking(false)} />
        </Dialog>
      )}
    </Panel>
  );
}
