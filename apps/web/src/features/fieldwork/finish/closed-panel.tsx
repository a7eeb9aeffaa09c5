import { Button } from '@mantine/core';
import type { Visit } from '@countercheck/contracts';
import { useState } from 'react';
import { ConfirmWords, said } from '../../../components/feedback/index.ts';
import { Moment, Panel } from '../../../components/page/index.ts';
import { useReopenVisit } from '../data/deeds.ts';
import { visitStateWords } from '../../../lib/words/work.ts';

/** A visit that takes no more readings, and how its own rater gets back into it. */
export function ClosedPanel({ visit, mayReopen }: { visit: Visit; mayReopen: boolean }) {
  const [asking, setAsking] = useState(false);
  const reopen = useReopenVisit();
  return (
    <Panel title="End of the visit">
      <div className="stack">
        <p>
          {visitStateWords[visit.state]}
          {visit.submittedAt && (
            <>
              , <Moment at={visit.submittedAt} />
            </>
          )}
          {visit.cause && `: ${visit.cause}`}
        </p>
        {mayReopen && (
          <Button size="lg" variant="default" onClick={() => setAsking(true)}>
            Open the visit again
          </Button>
        )}
      </div>
      <ConfirmWords
        title="Open the visit again?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Open again"
        label="Reason"
        required
        maxLength={500}
        onConfirm={async (reason) => {
          await reopen.mutateAsync({ params: { id: visit.id }, body: { reason } });
          said('The visit is open again.');
        }}
      />
    </Panel>
  );
}
