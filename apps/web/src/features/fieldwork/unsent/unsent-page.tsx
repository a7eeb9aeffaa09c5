import { Button } from '@mantine/core';
import { Link } from '@tanstack/react-router';
import { Moment, Page, Panel } from '../../../components/page/index.ts';
import { Empty } from '../../../components/states/index.ts';
import { onDemand } from '../../../lib/on-demand.tsx';
import { useTakeBack } from '../data/undo.ts';
import { canWithdraw, type Entry } from '../outbox/entry.ts';
import type { Content } from '../phone/content.ts';
import type { Phone } from '../phone/phone.ts';
import { usePhone } from '../phone/use-phone.ts';
import { download, unsentFile } from './export.ts';
import { entryTitle, statusWords } from './words.ts';
import '../fieldwork.css';

const Conflict = onDemand(async () => (await import('./conflict.tsx')).Conflict);

function OneEntry({ entry, phone }: { entry: Entry<Content>; phone: Phone }) {
  const { content, refusal, attempts, madeAt } = entry;
  const takeBack = useTakeBack();
  return (
    <li className={refusal ? 'unsent unsent-refused' : 'unsent'}>
      <p>
        <Link to={`/visits/${content.visitId}`} className="tap">
          {entryTitle(entry)}
        </Link>
      </p>
      <p className="soft small">
        Entered <Moment at={madeAt} />
        {!refusal && attempts > 0 && ` · tried ${attempts === 1 ? 'once' : `${attempts} times`}`}
      </p>
      {refusal ? (
        <Conflict entry={entry} phone={phone} />
      ) : (
        canWithdraw(entry) && (
          <Button size="md" variant="default" onClick={() => void takeBack(entry)}>
            Take it back
          </Button>
        )
      )}
    </li>
  );
}

/** Whether the browser promised to keep what is on the phone. */
function Room({ lasting }: { lasting: boolean | null }) {
  if (lasting === null) return null;
  return (
    <p className="soft">
      {lasting
        ? 'The browser has promised to keep what is on this phone until you sign out.'
        : 'The browser may clear this page’s store when the phone runs out of room. Add the page to the home screen, and send before you clear anything.'}
    </p>
  );
}

/** What was entered and has not reached the service, in the order of entering, and what needs a decision. */
export default function UnsentPage() {
  const { phone, state } = usePhone();
  const own = state.entries.filter(({ userId }) => userId === phone?.me.id);
  const others = state.entries.length - own.length;
  return (
    <Page width="sheet" title="Not sent yet" back={{ to: '/day', label: 'My day' }}>
      <p role="status">{statusWords(state)}</p>
      {others > 0 && (
        <p className="soft">
          {others} more were entered by somebody else on this phone; they are sent when that person signs in.
        </p>
      )}
      {phone && own.length === 0 && <Empty title="Everything you entered has been sent" />}
      {phone && own.length > 0 && (
        <>
          <div className="big-actions">
            <Button size="lg" onClick={() => phone.lookAround()}>
              Send now
            </Button>
            <Button
              size="lg"
              variant="default"
              onClick={() =>
                void unsentFile(phone, own).then((file) =>
                  download(file, `not-sent-${new Date().toISOString().slice(0, 10)}.json`),
                )
              }
            >
              Export unsent
            </Button>
          </div>
          <Panel title={`Waiting (${own.length})`}>
            <ol className="unsent-list">
              {own.map((entry) => (
                <OneEntry key={entry.id} entry={entry} phone={phone} />
              ))}
            </ol>
          </Panel>
        </>
      )}
      <Room lasting={state.lasting} />
      {state.preparedAt && (
        <p className="soft small">
          The houses on this phone are as of <Moment at={state.preparedAt} />.
        </p>
      )}
    </Page>
  );
}
