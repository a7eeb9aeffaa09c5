import { Button } from '@mantine/core';
import { builders, type BuilderDetail } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, said } from '../../components/feedback/index.ts';
import type { Column } from '../../components/table/index.ts';
import { useAction } from '../../lib/query.ts';
import { ContactForm } from './contact-form.tsx';
import { KeptPanel } from './kept-panel.tsx';
import type { BuilderPanelProps } from './panel-props.ts';

type Contact = BuilderDetail['contacts'][number];

const columns: Column<Contact>[] = [
  { title: 'Name', head: true, cell: (row) => row.name },
  { title: 'Duty', cell: (row) => row.duty ?? '–' },
  { title: 'Email', cell: (row) => row.email ?? '–' },
  { title: 'Phone', cell: (row) => row.phone ?? '–' },
  { title: 'Gets notices', cell: (row) => (row.notify ? 'Yes' : 'No') },
];

export function ContactsPanel({ builder, keeper }: BuilderPanelProps) {
  const [removing, setRemoving] = useState<Contact | null>(null);
  const remove = useAction(builders.removeContact, { invalidates: [builders.show] });
  return (
    <>
      <KeptPanel
        title="Contacts"
        one="contact"
        rows={builder.contacts}
        columns={columns}
        keeper={keeper}
        purpose="Results and visits are told to contacts that get notices."
        form={(contact, close) => <ContactForm builderId={builder.id} contact={contact} onDone={close} />}
        more={(row) => (
          <Button
            size="compact-sm"
            variant="subtle"
            color="red"
            onClick={() => setRemoving(row)}
            aria-label={`Remove ${row.name}`}
          >
            Remove
          </Button>
        )}
      />
      <Confirm
        title={`Remove ${removing?.name ?? 'the contact'}?`}
        opened={removing !== null}
        onClose={() => setRemoving(null)}
        action="Remove the contact"
        grave
        onConfirm={async () => {
          if (removing) await remove.mutateAsync({ params: { id: removing.id } });
          said('Contact removed');
        }}
      />
    </>
  );
}
