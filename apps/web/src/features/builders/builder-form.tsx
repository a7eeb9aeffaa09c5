import { Checkbox, Textarea, TextInput } from '@mantine/core';
import { builders, type Builder } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';

interface BuilderFormProps {
  builder?: Builder;
  onDone: (builder: Builder) => void;
  onCancel: () => void;
}

/** Registers a builder, or changes one. */
export function BuilderForm({ builder, onDone, onCancel }: BuilderFormProps) {
  const invalidates = [builders.list, builders.show];
  const register = useAction(builders.register, { invalidates });
  const change = useAction(builders.change, { invalidates });
  const of = useContractForm({
    schema: builder ? builders.change.body : builders.register.body,
    initialValues: {
      name: builder?.name ?? '',
      phone: builder?.phone ?? '',
      address: builder?.address ?? '',
      note: builder?.note ?? '',
      active: builder?.active ?? true,
    },
    send: async (body) => {
      const saved = builder
        ? await change.mutateAsync({ params: { id: builder.id }, body })
        : await register.mutateAsync({ body });
      said(builder ? 'Builder saved' : 'Builder registered');
      onDone(saved);
    },
  });
  const field = of.form.getInputProps;
  return (
    <FormBody of={of} action={builder ? 'Save' : 'Register'} onCancel={onCancel}>
      <div className="fields">
        <TextInput label="Name" data-autofocus {...field('name')} />
        <TextInput label="Phone" type="tel" {...field('phone')} />
      </div>
      <TextInput label="Address" {...field('address')} />
      <Textarea label="Note" autosize minRows={2} {...field('note')} />
      {builder && <Checkbox label="Active" {...field('active', { type: 'checkbox' })} />}
    </FormBody>
  );
}
