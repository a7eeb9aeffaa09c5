import { Button } from '@mantine/core';
import { administration, roleLabels, roles, type User } from '@countercheck/contracts';
import { useState } from 'react';
import { Dialog } from '../../../components/feedback/index.ts';
import { optionsOf } from '../../../components/fields/index.ts';
import { Tag } from '../../../components/marks/index.ts';
import { Moment, Page } from '../../../components/page/index.ts';
import { ChoiceFilter, DataTable, SearchFilter, type Column } from '../../../components/table/index.ts';
import { oneOf, useListSearch } from '../../../lib/list-search.ts';
import { useRoute } from '../../../lib/query.ts';
import { UserActions } from './user-actions.tsx';
import { UserForm } from './user-form.tsx';

const yesNo = ['true', 'false'] as const;

export default function UsersPage() {
  const { values, page } = useListSearch();
  const query = useRoute(
    administration.users,
    {
      query: {
        page,
        search: values.search,
        role: oneOf(roles, values.role),
        active: oneOf(yesNo, values.active),
      },
    },
    { keepPrevious: true },
  );
  const [open, setOpen] = useState<User | 'new' | null>(null);
  const close = () => setOpen(null);
  const columns: Column<User>[] = [
    { title: 'Name', head: true, cell: (row) => row.name },
    { title: 'Email', cell: (row) => row.email },
    { title: 'Role', cell: (row) => `${roleLabels[row.role]}${row.builder ? `, ${row.builder.name}` : ''}` },
    { title: 'State', cell: (row) => <UserState user={row} /> },
    { title: 'Second factor', cell: (row) => (row.secondFactor ? 'Yes' : 'No') },
    { title: 'Last signed in', cell: (row) => <Moment at={row.lastSignInAt} /> },
    { title: 'Sessions', figure: true, cell: (row) => row.openSessions },
    { title: 'Actions', cell: (row) => <UserActions user={row} onChange={() => setOpen(row)} /> },
  ];
  return (
    <Page title="Users" actions={<Button onClick={() => setOpen('new')}>Invite a user</Button>}>
      <DataTable
        caption="Users"
        columns={columns}
        keyOf={(row) => row.id}
        query={query}
        filters={
          <>
            <SearchFilter label="Name or email" />
            <ChoiceFilter label="Role" name="role" none="Any role" options={optionsOf(roleLabels)} />
            <ChoiceFilter
              label="State"
              name="active"
              none="Any state"
              options={optionsOf({ true: 'Active', false: 'Not active' })}
            />
          </>
        }
        empty="No user found"
      />
      {open && (
        <Dialog title={open === 'new' ? 'Invite a user' : `Change ${open.name}`} onClose={close}>
          <UserForm {...(open === 'new' ? {} : { user: open })} onDone={close} />
        </Dialog>
      )}
    </Page>
  );
}

function UserState({ user }: { user: User }) {
  if (!user.active) return <Tag>Not active</Tag>;
  return user.invited ? <Tag tone="brass">Invited</Tag> : <Tag tone="good">Active</Tag>;
}
