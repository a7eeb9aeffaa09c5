import { Textarea } from '@mantine/core';
import { houses, installers, type HouseDetail } from '@countercheck/contracts';
import { useState } from 'react';
import { QuantityInput, SearchChoice } from '../../../components/fields/index.ts';
import { Dialog, FormBody } from '../../../components/feedback/index.ts';
import type { AnswerOf } from '../../../lib/client.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction } from '../../../lib/query.ts';
import { SentLink, useInstallersFound } from './send-link-dialog.tsx';

type Sent = AnswerOf<typeof installers.openAgain>;

/** Lets the installer sign once more, for the reinspection of what was corrected. */
export function OpenFiguresDialog({ house, onClose }: { house: HouseDetail; onClose: () => void }) {
  const [sent, setSent] = useState<Sent | null>(null);
  return (
    <Dialog title="Open the figures again" onClose={onClose}>
      {sent ? <SentLink sent={sent} onClose={onClose} /> : <OpenForm houseId={house.id} onSent={setSent} />}
    </Dialog>
  );
}

function OpenForm({ houseId, onSent }: { houseId: string; onSent: (sent: Sent) => void }) {
  const open = useAction(installers.openAgain, {
    invalidates: [installers.links, installers.submissions, houses.events],
  });
  const of = useContractForm({
    schema: installers.openAgain.body,
    initialValues: { reason: '', installerId: null as string | null, days: null as number | null },
    toBody: ({ reason, installerId, days }) => ({
      reason,
      installerId: installerId ?? '',
      ...(days === null ? {} : { days }),
    }),
    send: async (body) => onSent(await open.mutateAsync({ params: { id: houseId }, body })),
  });
  return (
    <FormBody of={of} action="Open and make the link">
      <p>
        The installer can sign new figures until the rater takes the first reading of the reinspection. What
        was signed and read before stays as it is.
      </p>
      <Textarea
        label="Reason"
        description="The installer reads it, and it stays in the log."
        autosize
        minRows={2}
        data-autofocus
        {...of.form.getInputProps('reason')}
      />
      <SearchChoice
        label="Installer"
        placeholder="Name or company"
        useFound={useInstallersFound}
        {...of.form.getInputProps('installerId')}
      />
      <QuantityInput
        kind="count"
        label="Days it can be used"
        placeholder="The company's usual number"
        {...of.form.getInputProps('days')}
      />
    </FormBody>
  );
}
