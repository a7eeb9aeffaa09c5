import { Button } from '@mantine/core';
import { houses, recall, review, type RecallHouse } from '@countercheck/contracts';
import { useState } from 'react';
import { ConfirmWords, said } from '../../components/feedback/index.ts';
import { useAction } from '../../lib/query.ts';

/** A released file stays as it was sealed; what is measured again goes into a revision that is opened here. */
export function OpenRevision({ house, reason }: { house: RecallHouse; reason: string }) {
  const [asking, setAsking] = useState(false);
  const invalidates = [recall.houses, review.file, review.queue, review.result, houses.list, houses.show];
  const open = useAction(review.openAgain, { invalidates });
  return (
    <>
      <Button
        size="compact-sm"
        variant="default"
        aria-label={`Open a new revision of ${house.address}`}
        onClick={() => setAsking(true)}
      >
        Open a new revision
      </Button>
      <ConfirmWords
        title={`Open a new revision of ${house.address}?`}
        opened={asking}
        onClose={() => setAsking(false)}
        action="Open it"
        label="Reason"
        required
        maxLength={1000}
        proposed={reason}
        onConfirm={async (words) => {
          await open.mutateAsync({ params: { id: house.id }, body: { reason: words } });
          said(`${house.address} is open again as a new revision`);
        }}
      >
        <p>The sealed revision stays as it is and can be checked at any time.</p>
      </ConfirmWords>
    </>
  );
}
