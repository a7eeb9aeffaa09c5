import { Button, Checkbox } from '@mantine/core';
import { mailKinds, scheduling, type MailKind } from '@countercheck/contracts';
import { useState } from 'react';
import { said } from '../../components/feedback/index.ts';
import { Panel } from '../../components/page/index.ts';
import { Asked, Problem } from '../../components/states/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { mailKindWords } from '../../lib/words/scheduling.ts';

/** Which mail about visits one wants. */
export function MailPanel() {
  const query = useRoute(scheduling.mailPreferences, {});
  return (
    <Panel title="Mail about visits">
      <Asked query={query}>{({ muted }) => <MailForm key={muted.join()} muted={muted} />}</Asked>
    </Panel>
  );
}

function MailForm({ muted }: { muted: MailKind[] }) {
  const change = useAction(scheduling.changeMailPreferences, {
    invalidates: [scheduling.mailPreferences],
    onDone: () => said('Saved'),
  });
  const [wanted, setWanted] = useState<string[]>(mailKinds.filter((kind) => !muted.includes(kind)));
  return (
    <div className="stack">
      <Checkbox.Group label="Write to me when" value={wanted} onChange={setWanted}>
        <div className="stack">
          {mailKinds.map((kind) => (
            <Checkbox key={kind} value={kind} label={mailKindWords[kind]} />
          ))}
        </div>
      </Checkbox.Group>
      {change.isError && <Problem error={change.error} />}
      <div>
        <Button
          loading={change.isPending}
          onClick={() =>
            change.mutate({ body: { muted: mailKinds.filter((kind) => !wanted.includes(kind)) } })
          }
        >
          Save
        </Button>
      </div>
    </div>
  );
}
