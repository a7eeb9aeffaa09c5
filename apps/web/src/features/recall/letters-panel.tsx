import { Button, Textarea, TextInput } from '@mantine/core';
import { recall, type RecallLetter } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, said } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useRole } from '../../lib/session.ts';

function Draft({ letter }: { letter: RecallLetter }) {
  const maySend = useRole('quality');
  const [subject, setSubject] = useState(letter.subject);
  const [body, setBody] = useState(letter.body);
  const [asking, setAsking] = useState(false);
  const send = useAction(recall.sendLetter, { invalidates: [recall.letters] });
  const nobody = letter.recipients.length === 0;
  return (
    <div className="stack">
      <TextInput
        label="Subject"
        readOnly={!maySend}
        value={subject}
        onChange={(event) => setSubject(event.currentTarget.value)}
      />
      <Textarea
        label="Letter"
        autosize
        maxRows={24}
        readOnly={!maySend}
        value={body}
        onChange={(event) => setBody(event.currentTarget.value)}
      />
      <p className="soft">
        {nobody
          ? 'Nobody of this builder has an address and asked for notices; add a contact first.'
          : `To ${letter.recipients.join(', ')}`}
      </p>
      {maySend ? (
        <div>
          <Button disabled={nobody || !subject.trim() || !body.trim()} onClick={() => setAsking(true)}>
            Send to {letter.builder.name}
          </Button>
        </div>
      ) : (
        <p className="soft">The quality manager sends it.</p>
      )}
      <Confirm
        title={`Send this letter to ${letter.builder.name}?`}
        opened={asking}
        onClose={() => setAsking(false)}
        action="Send it"
        onConfirm={async () => {
          await send.mutateAsync({ params: { id: letter.id }, body: { subject, body } });
          said(`The letter to ${letter.builder.name} is on its way`);
        }}
      >
        <p>It goes to {letter.recipients.join(', ')} as it stands here, and cannot be taken back.</p>
      </Confirm>
    </div>
  );
}

function Letter({ letter }: { letter: RecallLetter }) {
  const { builder, houses, sentAt } = letter;
  return (
    <details>
      <summary>
        {builder.name}, {houses} {houses === 1 ? 'house' : 'houses'}{' '}
        <Tag tone={sentAt ? 'good' : 'plain'}>{sentAt ? 'Sent' : 'Draft'}</Tag>
      </summary>
      {sentAt ? (
        <div className="stack">
          <p className="soft">
            Sent by {letter.sentBy} on <Moment at={sentAt} /> to {letter.recipients.join(', ')}
          </p>
          <p>
            <strong>{letter.subject}</strong>
          </p>
          <p className="prewrap">{letter.body}</p>
        </div>
      ) : (
        <Draft letter={letter} />
      )}
    </details>
  );
}

/** Letters to the builders, ready to be read, changed and sent. */
export function LettersPanel({ id }: { id: string }) {
  const query = useRoute(recall.letters, { params: { id }, query: { pageSize: 100 } });
  return (
    <Panel title="Letters to builders">
      <Asked query={query}>
        {({ items, total }) =>
          items.length === 0 ? (
            <Empty title="No builder has to be told" />
          ) : (
            <div className="stack">
              {total > items.length && (
                <p className="soft">
                  The {items.length} with the most houses, of {total}.
                </p>
              )}
              {items.map((letter) => (
                <Letter key={letter.id} letter={letter} />
              ))}
            </div>
          )
        }
      </Asked>
    </Panel>
  );
}
