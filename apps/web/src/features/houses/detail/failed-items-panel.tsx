import { Button, Textarea, TextInput } from '@mantine/core';
import { failedItems, houses, type FailedItem, type HouseDetail } from '@countercheck/contracts';
import { useState } from 'react';
import { Dialog, FormBody, said } from '../../../components/feedback/index.ts';
import { FailureReason, Tag } from '../../../components/marks/index.ts';
import { Panel } from '../../../components/page/index.ts';
import { Asked, Empty } from '../../../components/states/index.ts';
import { RowsTable, type Column } from '../../../components/table/index.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';
import { tradeWords } from '../../../lib/words/people.ts';
import { failedStateTones, failedStateWords } from '../../../lib/words/work.ts';

const columns: Column<FailedItem>[] = [
  { title: 'Item', head: true, cell: (row) => row.title },
  { title: 'On', cell: (row) => row.subjectLabel },
  { title: 'By how much', cell: (row) => <FailureReason item={row} /> },
  { title: 'Trade', cell: (row) => tradeWords[row.trade] ?? row.trade },
  { title: 'Times', figure: true, cell: (row) => row.timesFailed },
  {
    title: 'State',
    cell: (row) => <Tag tone={failedStateTones[row.state]}>{failedStateWords[row.state]}</Tag>,
  },
];

export function FailedItemsPanel({ house }: { house: HouseDetail }) {
  const query = useRoute(failedItems.list, { query: { houseId: house.id, pageSize: 50 } });
  const mayAsk = useRole('office') && house.stage === 'corrections';
  const [asking, setAsking] = useState(false);
  return (
    <Panel
      title="Failed items"
      flush
      actions={
        mayAsk && (
          <Button size="xs" variant="default" onClick={() => setAsking(true)}>
            Ask for a reinspection
          </Button>
        )
      }
    >
      <Asked query={query}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No failed item was handed to the builder" />
          ) : (
            <RowsTable caption="Failed items" columns={columns} rows={items} keyOf={(row) => row.id} />
          )
        }
      </Asked>
      {asking && <AskDialog houseId={house.id} onClose={() => setAsking(false)} />}
    </Panel>
  );
}

function AskDialog({ houseId, onClose }: { houseId: string; onClose: () => void }) {
  const ask = useAction(failedItems.askReinspection, {
    invalidates: [houses.show, houses.list, failedItems.requests, failedItems.list],
  });
  const of = useContractForm({
    schema: failedItems.askReinspection.body,
    initialValues: { note: '', earliestOn: '' },
    toBody: ({ note, earliestOn }) => ({ note, earliestOn: earliestOn || null }),
    send: async (body) => {
      await ask.mutateAsync({ params: { id: houseId }, body });
      said('Reinspection asked for');
      onClose();
    },
  });
  return (
    <Dialog title="Ask for a reinspection" onClose={onClose}>
      <FormBody of={of} action="Ask" onCancel={onClose}>
        <TextInput type="date" label="Not before" {...of.form.getInputProps('earliestOn')} />
        <Textarea label="Note" autosize minRows={2} {...of.form.getInputProps('note')} />
      </FormBody>
    </Dialog>
  );
}
