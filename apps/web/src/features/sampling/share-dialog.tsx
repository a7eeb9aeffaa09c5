import { NumberInput, TextInput } from '@mantine/core';
import { sampling, type ObligationShareRow } from '@countercheck/contracts';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { purposeWords } from './words.ts';

interface ShareDialogProps {
  share: ObligationShareRow;
  onClose: () => void;
}

/** The company's own share. It says where the figure comes from, since an auditor will ask. */
export function ShareDialog({ share, onClose }: ShareDialogProps) {
  const change = useAction(sampling.changeShare, {
    invalidates: [sampling.obligations],
    onDone: () => {
      said('The share is changed.');
      onClose();
    },
  });
  const of = useContractForm({
    schema: sampling.changeShare.body,
    initialValues: {
      share: (share.share / 100) as number | string,
      minimum: share.minimum as number | string,
      source: share.usual ? '' : share.source,
    },
    toBody: ({ share: percent, minimum, source }) => ({
      ...{ kind: share.kind, source },
      share: percent === '' ? undefined : Math.round(Number(percent) * 100),
      minimum: minimum === '' ? undefined : Number(minimum),
    }),
    send: (body) => change.mutateAsync({ body: body as BodyOf<typeof sampling.changeShare> }),
  });
  const field = of.form.getInputProps;
  return (
    <Dialog title={`Share of ${purposeWords[share.kind].toLowerCase()}`} onClose={onClose}>
      <FormBody of={of} action="Change" onCancel={onClose}>
        <NumberInput
          label="Share of each rater’s files, %"
          min={0}
          max={100}
          decimalScale={2}
          {...field('share')}
        />
        <NumberInput label="At least" min={1} allowDecimal={false} {...field('minimum')} />
        <TextInput
          label="Where this figure comes from"
          description="A standard, a contract, the company’s own manual."
          {...field('source')}
        />
      </FormBody>
    </Dialog>
  );
}
