import { Checkbox, TextInput } from '@mantine/core';
import { installers, type Installer } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { tradeWords } from '../../lib/words/people.ts';

// Builders report through their own pages, never through a link.
const trades = optionsOf(tradeWords).filter(({ value }) => value !== 'builder');

export function InstallerForm({ installer, onDone }: { installer?: Installer; onDone: () => void }) {
  const register = useAction(installers.register, { invalidates: [installers.list] });
  const change = useAction(installers.change, { invalidates: [installers.list] });
  const of = useContractForm({
    schema: installers.register.body,
    initialValues: {
      name: installer?.name ?? '',
      companyName: installer?.companyName ?? '',
      trade: installer?.trade ?? 'hvac-installer',
      email: installer?.email ?? '',
      phone: installer?.phone ?? '',
      active: installer?.active ?? true,
    },
    toBody: (values) =>
      ({ ...values, email: values.email.trim() || null }) as BodyOf<typeof installers.register> & {
        active: boolean;
      },
    send: async (body) => {
      if (installer) await change.mutateAsync({ params: { id: installer.id }, body });
      else await register.mutateAsync({ body });
      said('Installer saved');
      onDone();
    },
  });
  const field = of.form.getInputProps;
  return (
    <FormBody of={of} action="Save" onCancel={onDone}>
      <div className="fields">
        <TextInput label="Name" data-autofocus {...field('name')} />
        <TextInput label="Company" {...field('companyName')} />
        <Choice label="Trade" options={trades} {...field('trade')} />
        <TextInput label="Email" type="email" {...field('email')} />
        <TextInput label="Phone" type="tel" {...field('phone')} />
      </div>
      {installer && <Checkbox label="Active" {...field('active', { type: 'checkbox' })} />}
    </FormBody>
  );
}
