import { Checkbox, TextInput } from '@mantine/core';
import { builders, type Plan } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import {
  emptyFigures,
  emptyParts,
  figuresOf,
  FiguresFields,
  PartsEditor,
} from '../../components/house-form/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';

interface PlanFormProps {
  builderId: string;
  plan: Plan | undefined;
  onDone: () => void;
}

/** A plan: the figures and parts that a house of it starts with. */
export function PlanForm({ builderId, plan, onDone }: PlanFormProps) {
  const add = useAction(builders.addPlan, { invalidates: [builders.show] });
  const change = useAction(builders.changePlan, { invalidates: [builders.show] });
  const of = useContractForm({
    schema: builders.addPlan.body,
    initialValues: {
      name: plan?.name ?? '',
      active: plan?.active ?? true,
      ...(plan ? figuresOf(plan) : emptyFigures),
      parts: plan?.parts ?? emptyParts,
    },
    send: async (values) => {
      // Checked against the contract before it comes here.
      const body = values as unknown as BodyOf<typeof builders.addPlan>;
      if (plan) await change.mutateAsync({ params: { id: plan.id }, body });
      else await add.mutateAsync({ params: { id: builderId }, body });
      said('Plan saved');
      onDone();
    },
  });
  return (
    <FormBody of={of} action="Save" onCancel={onDone}>
      <TextInput label="Name" data-autofocus {...of.form.getInputProps('name')} />
      <FiguresFields form={of.form} />
      <PartsEditor form={of.form} />
      {plan && (
        <>
          <Checkbox
            label="Offered for new houses"
            {...of.form.getInputProps('active', { type: 'checkbox' })}
          />
          <p className="soft">Houses already registered stay as they are.</p>
        </>
      )}
    </FormBody>
  );
}
