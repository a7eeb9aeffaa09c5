import { TextInput } from '@mantine/core';
import { houses, scheduling, visits, type Visit } from '@countercheck/contracts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { Dialog, FormBody, said } from '../feedback/index.ts';

/** Cancels a visit that has not begun; the cause goes into the record. */
export function CancelDialog({ visit, onClose }: { visit: Visit; onClose: () => void }) {
  const cancel = useAction(visits.cancel, {
    invalidates: [
      scheduling.board,
      scheduling.requests,
      visits.list,
      houses.show,
      houses.list,
      houses.events,
    ],
  });
  const of = useContractForm({
    schema: visits.cancel.body,
    initialValues: { cause: '' },
    send: async (body) => {
      await cancel.mutateAsync({ params: { id: visit.id }, body });
      said('Visit cancelled');
      onClose();
    },
  });
  return (
    <Dialog title={`Cancel the visit to ${visit.house.address}?`} onClose={onClose}>
      <FormBody of={of} action="Cancel the visit" onCancel={onClose}>
        <TextInput label="Cause" data-autofocus {...of.form.getInputProps('cause')} />
      </FormBody>
    </Dialog>
  );
}
