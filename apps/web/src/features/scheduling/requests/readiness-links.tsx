import { Button, TextInput } from '@mantine/core';
import { builders, readinessLinkBody, scheduling, type VisitRequest } from '@countercheck/contracts';
import { useState } from 'react';
import { Dialog, FormBody, said } from '../../../components/feedback/index.ts';
import { CopyText } from '../../../components/fields/index.ts';
import { Tag } from '../../../components/marks/index.ts';
import { Moment, Panel } from '../../../components/page/index.ts';
import { Asked, Empty, Problem } from '../../../components/states/index.ts';
import { RowsTable } from '../../../components/table/index.ts';
import type { BodyOf } from '../../../lib/client.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { linkStateWords } from '../../../lib/words/work.ts';

/** Personal links by which somebody at the builder says what is ready. */
export function ReadinessLinks({ request, keeper }: { request: VisitRequest; keeper: boolean }) {
  const query = useRoute(scheduling.readinessLinks, { params: { id: request.id } });
  const revoke = useAction(scheduling.revokeReadinessLink, { invalidates: [scheduling.readinessLinks] });
  const [sending, setSending] = useState(false);
  const still = request.state === 'open' || request.state === 'booked';
  return (
    <Panel
      title="Links to the readiness list"
      flush
      actions={
        keeper &&
        still && (
          <Button size="xs" variant="default" onClick={() => setSending(true)}>
            Make a link
          </Button>
        )
      }
    >
      {revoke.isError && <Problem error={revoke.error} />}
      <Asked query={query}>
        {(links) =>
          links.length === 0 ? (
            <Empty title="No link made yet">
              Somebody at the site answers the list through a personal link, without an account.
            </Empty>
          ) : (
            <RowsTable
              caption="Links to the readiness list"
              rows={links}
              keyOf={(row) => row.id}
              columns={[
                { title: 'For', head: true, cell: (row) => row.name },
                { title: 'Email', cell: (row) => row.email ?? '–' },
                {
                  title: 'State',
                  cell: (row) => (
                    <Tag tone={row.state === 'open' ? 'good' : 'plain'}>{linkStateWords[row.state]}</Tag>
                  ),
                },
                { title: 'Until', cell: (row) => <Moment at={row.expiresAt} day /> },
                { title: 'Last used', cell: (row) => <Moment at={row.lastUsedAt} /> },
                {
                  title: 'Actions',
                  cell: (row) =>
                    keeper &&
                    row.state === 'open' && (
                      <Button
                        size="compact-sm"
                        variant="subtle"
                        color="red"
                        aria-label={`Withdraw the link of ${row.name}`}
                        onClick={() =>
                          void revoke.mutateAsync({ params: { id: row.id } }).then(
                            () => said('Link withdrawn'),
                            () => undefined,
                          )
                        }
                      >
                        Withdraw
                      </Button>
                    ),
                },
              ]}
            />
          )
        }
      </Asked>
      {sending && <SendDialog request={request} onClose={() => setSending(false)} />}
    </Panel>
  );
}

function SendDialog({ request, onClose }: { request: VisitRequest; onClose: () => void }) {
  const builder = useRoute(builders.show, { params: { id: request.house.builder.id } });
  const send = useAction(scheduling.sendReadinessLink, { invalidates: [scheduling.readinessLinks] });
  const [url, setUrl] = useState<string | null>(null);
  const of = useContractForm({
    schema: readinessLinkBody,
    initialValues: { name: '', email: '' },
    toBody: ({ name, email }) =>
      ({ name, email: email.trim() || null }) as BodyOf<typeof scheduling.sendReadinessLink>,
    send: async (body) => {
      const answer = await send.mutateAsync({ params: { id: request.id }, body });
      setUrl(answer.url);
    },
  });
  const contacts = builder.data?.contacts ?? [];
  return (
    <Dialog title={`Link to the readiness list of ${request.house.address}`} onClose={onClose}>
      {url ? (
        <div className="stack">
          <p>The link is shown once. It was mailed if an address was given.</p>
          <CopyText label="Link" text={url} />
          <div>
            <Button onClick={onClose}>Done</Button>
          </div>
        </div>
      ) : (
        <FormBody of={of} action="Make the link" onCancel={onClose}>
          {contacts.length > 0 && (
            <div className="row">
              {contacts.map((contact) => (
                <Button
                  key={contact.id}
                  size="compact-sm"
                  variant="default"
                  onClick={() => of.form.setValues({ name: contact.name, email: contact.email ?? '' })}
                >
                  {contact.name}
                </Button>
              ))}
            </div>
          )}
          <div className="fields">
            <TextInput label="For whom" data-autofocus {...of.form.getInputProps('name')} />
            <TextInput
              label="Email"
              type="email"
              description="May be left out; then hand the link on yourself."
              {...of.form.getInputProps('email')}
            />
          </div>
        </FormBody>
      )}
    </Dialog>
  );
}
