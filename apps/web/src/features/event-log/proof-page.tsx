import { Button } from '@mantine/core';
import { IconDownload } from '@tabler/icons-react';
import { eventLog, type Role } from '@countercheck/contracts';
import type { Head, Proof } from '@countercheck/seal';
import { useState } from 'react';
import { Caution, StatusMark } from '../../components/marks/index.ts';
import { FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked, Loading } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { KeptHead } from './kept-head.tsx';
import { jsonUrl } from './save-file.ts';
import { useChecks, type Checks } from './use-checks.ts';
import './event-log.css';

/** Checks in this browser that a file was released as it is, and that the log still says so. */
export default function ProofPage() {
  const query = useRoute(eventLog.proof, { params: { id: useParam('id') } });
  const { role } = useMe();
  return (
    <Page
      title="Proof of a released file"
      width="reading"
      lead="Every hash is worked out again here, in this browser, and not taken from the server."
    >
      <Asked query={query} what="Fetching the proof">
        {(proof) => <Checked proof={proof} role={role} />}
      </Asked>
    </Page>
  );
}

function Checked({ proof, role }: { proof: Proof; role: Role }) {
  const [kept, setKept] = useState<Head>();
  const checks = useChecks(proof, kept, role);
  const { release, record, head } = proof;
  return (
    <>
      <Panel
        title="What was checked"
        actions={
          <Button
            component="a"
            variant="default"
            href={jsonUrl(proof)}
            download={`proof-${release.id}.json`}
            leftSection={<IconDownload size={16} aria-hidden="true" />}
          >
            Save the proof
          </Button>
        }
      >
        <div role="status">
          <Outcome checks={checks} />
        </div>
      </Panel>
      <Panel title="Against a head of your own">
        <KeptHead onHead={setKept} />
        <p className="soft small hash-title">
          Without one, a log that was written anew as a whole would look as good as this. The proof shows that
          the file is the one that was released, not that what was measured was right.
        </p>
      </Panel>
      <Panel title="Where it stands in the log">
        <FactList
          facts={[
            ['Record of the release', record.sequence.toLocaleString('en')],
            ['Head it leads to', `record ${head.sequence.toLocaleString('en')}`],
            ['Head read', <Moment key="at" at={head.at} />],
            ['Revision', release.revision],
          ]}
        />
        <p className="soft small hash-title">Seal of the file (SHA-256)</p>
        <p className="code hash">{release.hash}</p>
        <p className="soft small hash-title">Hash of the record</p>
        <p className="code hash">{record.hash}</p>
        <p className="soft small hash-title">Hash of the head</p>
        <p className="code hash">{head.hash}</p>
      </Panel>
    </>
  );
}

function Outcome({ checks }: { checks: Checks }) {
  if (checks === 'working') return <Loading what="Working out the hashes" />;
  if (checks === 'no-crypto')
    return (
      <Caution title="This browser cannot check here">
        <p>
          Browsers work out hashes on encrypted pages (https) only. Open the service by its https address, or
          save the proof and check it elsewhere.
        </p>
      </Caution>
    );
  if (checks === 'failed')
    return (
      <Caution weight="stop" title="The proof could not be checked">
        <p>
          It has a form that this page does not know. Load the page anew; if that does not help, tell the
          company.
        </p>
      </Caution>
    );
  return (
    <>
      {checks.some(({ holds }) => !holds) && (
        <Caution weight="stop" title="The proof does not hold">
          <p>Do not rely on this file before the company has explained what differs.</p>
        </Caution>
      )}
      <ul className="proof-checks" aria-label="Checks">
        {checks.map(({ words, holds }) => (
          <li key={words}>
            <StatusMark status={holds ? 'pass' : 'fail'} size="s" />
            <span>{words}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
