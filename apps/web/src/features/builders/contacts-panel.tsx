import { Button } from '@mantine/core';
import { builders, type BuilderDetail } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, Dialog, said } from '../../components/feedback/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { useAction } from '../../lib/query.ts';
import { ContactForm } from './contact-form.tsx';
import type { BuilderPanelProps } from './panel-props.ts';

type Contact = BuilderDetail['contacts'][number];

export function ContactsPanel({ builder, keeper }: BuilderPanelProps) {
  const [open, setOpen] = useState<Contact | 'new' | null>(null);
  const [removing, setRemoving] = useState<Contact | null>(null);
  const remove = useAction(builders.removeContact, { invalidates: [builders.show] });
  const close = () => setOpen(null);
  const columns: Column<Contact>[] = [
    { title: 'Name', head: true, cell: (row) => row.name },
    { title: 'Duty', cell: (row) => row.duty ?? '–' },
    { title: 'Email', cell: (row) => row.email ?? '–' },
    { title: 'Phone', cell: (row) => row.phone ?? '–' },
    { title: 'Gets notices', cell: (row) => (row.notify ? 'Yes' : 'No') },
  ];
  if (keeper) {
    columns.push({
      title: 'Actions',
      cell: (row) => (
        <span className="row">
          <Button
            size="compact-sm"
            variant="subtle"
            onClick={() => setOpen(row)}
            aria-label={`Change ${row.name}`}
          >
            Change
          </Button>
          <Button
            size="compact-sm"
            variant="subtle"
            color="red"
            onClick={() => setRemoving(row)}
            aria-label={`Remove ${row.name}`}
          >
            Remove
          </Button>
        </span>
      ),
    });
  }
  return (
    <Panel
      title="Contacts"
      flush
      actions={
        keeper && (
          <Button size="xs" variant="default" onClick={() => setOpen('new')}>
            Add a contact
          </Button>
        )
      }
    >
      {builder.contacts.length === 0 ? (
        <Empty title="No contact yet">Results and visits are told to contacts that get notices.</Empty>
      ) : (
        <RowsTable caption="Contacts" columns={columns} rows={builder.contacts} keyOf={(row) => row.id} />
      )}
      {open && (
        <Dialog title={open === 'new' ? 'Add a contact' : `Change ${open.name}`} onClose={close}>
          <ContactForm builderId={builder.id} {...(open === 'new' ? {} : { contact: open })} onDone={close} />
        </Dialog>
      )}
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
    </Panel>
  );
}
