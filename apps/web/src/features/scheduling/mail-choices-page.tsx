import { Button, Checkbox } from '@mantine/core';
import { mailKinds, scheduling } from '@countercheck/contracts';
import { useState } from 'react';
import { said } from '../../components/feedback/index.ts';
import { LinkGone } from '../../components/link-gone/index.ts';
import { Page } from '../../components/page/index.ts';
import { Loading, Problem } from '../../components/states/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useParam } from '../../lib/page-route.ts';
import { hasCode } from '../../lib/problem.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { mailKindWords } from '../../lib/words/scheduling.ts';

type Choices = BodyOf<typeof scheduling.changeMailChoices>;

/** What a contact of a builder sees behind the link in its mail: what it wants to hear of. */
export default function MailChoicesPage() {
  const token = useParam('token');
  const query = useRoute(scheduling.mailChoices, { params: { token } });
  const change = useAction(scheduling.changeMailChoices, {
    invalidates: [scheduling.mailChoices],
    onDone: () => said('Saved'),
  });
  if (hasCode(query.error, 'link-unknown', 'link-revoked')) return <LinkGone error={query.error} />;
  if (query.isError && !query.data) return <Problem error={query.error} retry={() => void query.refetch()} />;
  if (!query.data) return <Loading what="Opening your choices" />;
  const { company, name, email, ...choices } = query.data;
  return (
    <Page
      width="reading"
      title="Your mail"
      lead={`What ${company} writes to ${name}${email ? `, ${email}` : ''}`}
    >
      <ChoicesForm
        key={JSON.stringify(choices)}
        choices={choices}
        busy={change.isPending}
        error={change.error}
        save={(body) => change.mutate({ params: { token }, body })}
      />
    </Page>
  );
}

interface ChoicesFormProps {
  choices: { notify: boolean; muted: readonly string[] };
  busy: boolean;
  error: unknown;
  save: (body: Choices) => void;
}

function ChoicesForm({ choices, busy, error, save }: ChoicesFormProps) {
  const [notify, setNotify] = useState(choices.notify);
  const [wanted, setWanted] = useState<string[]>(mailKinds.filter((kind) => !choices.muted.includes(kind)));
  return (
    <div className="stack">
      <Checkbox
        label="Write to me about results and visits"
        description="Without it you get no notices at all, also not of what has to be corrected."
        checked={notify}
        onChange={(event) => setNotify(event.currentTarget.checked)}
      />
      {notify && (
        <Checkbox.Group label="Of visits, when" value={wanted} onChange={setWanted}>
          <div className="stack">
            {mailKinds.map((kind) => (
              <Checkbox key={kind} value={kind} label={mailKindWords[kind]} />
            ))}
          </div>
        </Checkbox.Group>
      )}
      {error !== null && <Problem error={error} />}
      <div>
        <Button
          loading={busy}
          onClick={() => save({ notify, muted: mailKinds.filter((kind) => !wanted.includes(kind)) })}
        >
          Save
        </Button>
      </div>
    </div>
  );
}
