import { Textarea, TextInput } from '@mantine/core';
import type { fileReviews, retests } from '@countercheck/contracts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useMe } from '../../lib/session.ts';
import { HouseChoice } from '../choosers/index.ts';
import { Dialog, FormBody } from '../feedback/index.ts';

type Order = BodyOf<typeof fileReviews.order> & BodyOf<typeof retests.order>;

interface OrderDialogProps {
  title: string;
  /** what is ordered; both ask for the same */
  route: typeof fileReviews.order | typeof retests.order;
  /** proposed time until it is due */
  days: number;
  /** about the reason that is given */
  whyHelp: string;
  onOrder: (body: Order) => Promise<unknown>;
  onClose: () => void;
}

/** Orders a second look at one house by hand. */
export function OrderDialog({ title, route, days, whyHelp, onOrder, onClose }: OrderDialogProps) {
  const day = today(useMe().company.timezone);
  const of = useContractForm({
    schema: route.body,
    initialValues: { houseId: null as string | null, dueOn: addDays(day, days), reason: '' },
    send: (body) => onOrder(body as Order),
  });
  const { form } = of;
  return (
    <Dialog title={title} onClose={onClose}>
      <FormBody of={of} action="Order" onCancel={onClose}>
        <HouseChoice
          value={form.getValues().houseId}
          onChange={(id) => form.setFieldValue('houseId', id)}
          error={form.errors.houseId as string | undefined}
        />
        <TextInput type="date" label="Due" {...form.getInputProps('dueOn')} />
        <Textarea label="Why" description={whyHelp} autosize {...form.getInputProps('reason')} />
      </FormBody>
    </Dialog>
  );
}
