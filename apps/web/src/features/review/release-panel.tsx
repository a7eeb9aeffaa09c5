import { Button } from '@mantine/core';
import { houses, review, type WholeFile } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { ConfirmWords, said } from '../../components/feedback/index.ts';
import { Caution } from '../../components/marks/index.ts';
import { Moment, Panel } from '../../components/page/index.ts';
import { useAction } from '../../lib/query.ts';

const touched = [review.file, review.queue, review.result, houses.list, houses.show];

function Release({ file }: { file: WholeFile }) {
  const [asking, setAsking] = useState(false);
  const release = useAction(review.release, { invalidates: touched });
  const free = file.releasable && !file.ownWork;
  return (
    <>
      {file.holding.length > 0 && (
        <>
          <p>This holds the release:</p>
          <ul className="holding">
            {file.holding.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      )}
      {free && <p>Nothing holds the release.</p>}
      <div>
        <Button disabled={!free} onClick={() => setAsking(true)}>
          Release and seal
        </Button>
      </div>
      <ConfirmWords
        title="Release and seal this file?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Release and seal"
        label="Note"
        onConfirm={async (note) => {
          await release.mutateAsync({ params: { id: file.house.id }, body: { note } });
          said('The file is released and sealed; the builder gets the result.');
        }}
      >
        <p>The file is sealed as it is now. A later change needs a new revision with a reason.</p>
      </ConfirmWords>
    </>
  );
}

function OpenAgain({ file }: { file: WholeFile }) {
  const [asking, setAsking] = useState(false);
  const openAgain = useAction(review.openAgain, { invalidates: touched });
  return (
    <>
      <div>
        <Button variant="default" onClick={() => setAsking(true)}>
          Open a new revision
        </Button>
      </div>
      <ConfirmWords
        title="Open a new revision?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Open it"
        label="Reason"
        required
        maxLength={1000}
        onConfirm={async (reason) => {
          await openAgain.mutateAsync({ params: { id: file.house.id }, body: { reason } });
          said('The file is open again as a new revision.');
        }}
      >
        <p>The sealed revision stays as it is and can be checked at any time.</p>
      </ConfirmWords>
    </>
  );
}

interface Props {
  file: WholeFile;
  mayRelease: boolean;
  mayOpen: boolean;
}

/** Whether the file can be released, what holds it, and the seals it has had. */
export function ReleasePanel({ file, mayRelease, mayOpen }: Props) {
  const { stage } = file.house;
  return (
    <Panel title="Release">
      <div className="stack">
        {file.ownWork && (
          <Caution title="Your own work">
            You took readings for this house; another quality manager reviews it.
          </Caution>
        )}
        {file.releases.length > 0 && (
          <ul className="plain-list stack">
            {file.releases.map((release) => (
              <li key={release.id}>
                <Link to={`/releases/${release.id}`}>Sealed revision {release.revision}</Link>,{' '}
                {release.releasedBy}, <Moment at={release.releasedAt} />
                <span className="code seal">{release.hash}</span>
              </li>
            ))}
          </ul>
        )}
        {stage === 'in_review' && mayRelease && <Release file={file} />}
        {stage !== 'in_review' && stage !== 'released' && (
          <>
            <p className="soft">This file is not before the quality manager.</p>
            {file.holding.length > 0 && (
              <ul className="holding">
                {file.holding.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            )}
          </>
        )}
        {stage === 'released' && mayOpen && <OpenAgain file={file} />}
      </div>
    </Panel>
  );
}
