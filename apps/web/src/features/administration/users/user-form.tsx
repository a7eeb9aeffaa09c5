import { Checkbox, TextInput } from '@mantine/core';
import { administration, roleLabels, type User } from '@countercheck/contracts';
import { BuilderChoice } from '../../../components/choosers/index.ts';
import { FormBody, said } from '../../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../../components/fields/index.ts';
import type { BodyOf } from '../../../lib/client.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction } from '../../../lib/query.ts';

type Invited = BodyOf<typeof administration.invite>;

/** Invites a user, or changes one. The email is the account's name and stays. */
export function UserForm({ user, onDone }: { user?: User; onDone: () => void }) {
  const invite = useAction(administration.invite, { invalidates: [administration.users] });
  const change = useAction(administration.changeUser, { invalidates: [administration.users] });
  const of = useContractForm({
    schema: administration.invite.body,
    initialValues: {
      name: user?.name ?? '',
      email: user?.email ?? '',
      role: user?.role ?? 'rater',
      builderId: user?.builder?.id ?? (null as string | null),
      active: user?.active ?? true,
    },
    toBody: ({ role, builderId, ...rest }) => ({
      ...rest,
      role,
      builderId: role === 'builder' ? builderId : null,
    }),
    send: async ({ active, email, ...body }) => {
      if (user) await change.mutateAsync({ params: { id: user.id }, body: { ...body, active } });
      else await invite.mutateAsync({ body: { ...body, email } satisfies Invited });
      said(user ? 'User saved' : `Invitation to ${email} written`);
      onDone();
    },
  });
  const field = of.form.getInputProps;
  const { role, builderId } = of.form.getValues();
  return (
    <FormBody of={of} action={user ? 'Save' : 'Invite'} onCancel={onDone}>
      <div className="fields">
        <TextInput label="Name" data-autofocus {...field('name')} />
        <TextInput label="Email" type="email" disabled={Boolean(user)} {...field('email')} />
        <Choice label="Role" options={optionsOf(roleLabels)} {...field('role')} />
        {role === 'builder' && (
          <BuilderChoice
            value={builderId}
            onChange={(id) => of.form.setFieldValue('builderId', id)}
            error={of.form.errors.builderId as string | undefined}
          />
        )}
      </div>
      {user && (
        <Checkbox
          label="Active"
          description="Taking this away ends the user's sessions at once."
          {...field('active', { type: 'checkbox' })}
        />
      )}
    </FormBody>
  );
}
