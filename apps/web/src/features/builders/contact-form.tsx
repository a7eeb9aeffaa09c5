import { Checkbox, TextInput } from '@mantine/core';
import { builders, mailKinds, type BuilderDetail } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { mailKindWords } from '../../lib/words/scheduling.ts';
import { MailLink } from './mail-link.tsx';

interface ContactFormProps {
  builderId: string;
  contact: BuilderDetail['contacts'][number] | undefined;
  onDone: () => void;
}

export function ContactForm({ builderId, contact, onDone }: ContactFormProps) {
  const add = useAction(builders.addContact, { invalidates: [builders.show] });
  const change = useAction(builders.changeContact, { invalidates: [builders.show] });
  const of = useContractForm({
    schema: builders.addContact.body,
    initialValues: {
      name: contact?.name ?? '',
      duty: contact?.duty ?? '',
      email: contact?.email ?? '',
      phone: contact?.phone ?? '',
      notify: contact?.notify ?? true,
      wanted: mailKinds.filter((kind) => !contact?.mutedMail.includes(kind)) as string[],
    },
    toBody: ({ wanted, ...values }) => ({
      ...values,
      email: values.email.trim() || null,
      mutedMail: mailKinds.filter((kind) => !wanted.includes(kind)),
    }),
    send: async (body) => {
      if (contact) await change.mutateAsync({ params: { id: contact.id }, body });
      else await add.mutateAsync({ params: { id: builderId }, body });
      said('Contact saved');
      onDone();
    },
  });
  const field = of.form.getInputProps;
  return (
    <FormBody of={of} action="Save" onCancel={onDone}>
      <div className="fields">
        <TextInput label="Name" data-autofocus {...field('name')} />
        <TextInput label="Duty" placeholder="Site superintendent" {...field('duty')} />
        <TextInput label="Email" type="email" {...field('email')} />
        <TextInput label="Phone" type="tel" {...field('phone')} />
      </div>
      <Checkbox
        label="Gets notices of results and visits by email"
        {...field('notify', { type: 'checkbox' })}
      />
      {of.form.getValues().notify && (
        <Checkbox.Group label="Of visits, when" {...field('wanted')}>
          <div className="stack">
            {mailKinds.map((kind) => (
              <Checkbox key={kind} value={kind} label={mailKindWords[kind]} />
            ))}
          </div>
        </Checkbox.Group>
      )}
      {contact?.email && <MailLink contactId={contact.id} />}
    </FormBody>
  );
}
