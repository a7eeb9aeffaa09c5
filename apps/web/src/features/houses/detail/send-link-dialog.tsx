import { Button } from '@mantine/core';
import { installers, type HouseDetail } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Dialog, FormBody } from '../../../components/feedback/index.ts';
import { CopyText, found, QuantityInput, SearchChoice } from '../../../components/fields/index.ts';
import { Caution } from '../../../components/marks/index.ts';
import type { AnswerOf } from '../../../lib/client.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction, useRoute } from '../../../lib/query.ts';

export const useInstallersFound = (search: string) =>
  found(
    useRoute(installers.list, { query: { search, pageSize: 20 } }, { keepPrevious: true }),
    ({ id, name, companyName, active }) => (active ? { value: id, label: `${name}, ${companyName}` } : null),
  );

type Sent = Pick<AnswerOf<typeof installers.sendLink>, 'link' | 'url'>;

/** Makes a personal link; its address is shown this once and then known to nobody but the installer. */
export function SendLinkDialog({ house, onClose }: { house: HouseDetail; onClose: () => void }) {
  const [sent, setSent] = useState<Sent | null>(null);
  return (
    <Dialog title={`Link for ${house.address}`} onClose={onClose}>
      {sent ? <SentLink sent={sent} onClose={onClose} /> : <LinkForm houseId={house.id} onSent={setSent} />}
    </Dialog>
  );
}

function LinkForm({ houseId, onSent }: { houseId: string; onSent: (sent: Sent) => void }) {
  const send = useAction(installers.sendLink, { invalidates: [installers.links] });
  const of = useContractForm({
    schema: installers.sendLink.body,
    initialValues: { installerId: null as string | null, days: null as number | null },
    toBody: ({ installerId, days }) => ({
      installerId: installerId ?? '',
      ...(days === null ? {} : { days }),
    }),
    send: async (body) => onSent(await send.mutateAsync({ params: { id: houseId }, body })),
  });
  return (
    <FormBody of={of} action="Make the link">
      <SearchChoice
        label="Installer"
        placeholder="Name or company"
        useFound={useInstallersFound}
        data-autofocus
        {...of.form.getInputProps('installerId')}
      />
      <p className="small">
        Not in the list? <Link to="/installers">Register the installer</Link> first.
      </p>
      <QuantityInput
        kind="count"
        label="Days it can be used"
        placeholder="The company's usual number"
        {...of.form.getInputProps('days')}
      />
    </FormBody>
  );
}

/** The address of a link that was just made, shown this once. */
export function SentLink({ sent, onClose }: { sent: Sent; onClose: () => void }) {
  const { installer } = sent.link;
  return (
    <div className="stack">
      <p role="status">
        {installer.email
          ? `The link was mailed to ${installer.email}.`
          : `${installer.name} has no email address: hand the link on yourself.`}
      </p>
      <CopyText label="Link" text={sent.url} />
      <Caution>
        <p>It is shown this once. Whoever has it can enter figures for this house and nothing else.</p>
      </Caution>
      <div>
        <Button onClick={onClose}>Done</Button>
      </div>
    </div>
  );
}
