import { Button, Textarea } from '@mantine/core';
import { houses, recall, review, type RecallHouse } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, said } from '../../components/feedback/index.ts';
import { useAction } from '../../lib/query.ts';

/** A released file stays as it was sealed; what is measured again goes into a revision that is opened here. */
export function OpenRevision({ house, reason: proposed }: { house: RecallHouse; reason: string }) {
  const [asking, setAsking] = useState(false);
  const [reason, setReason] = useState(proposed);
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
      <Confirm
        title={`Open a new revision of ${house.address}?`}
        opened={asking}
        onClose={() => setAsking(false)}
        action="Open it"
        disabled={reason.trim() === ''}
        onConfirm={async () => {
          await open.mutateAsync({ params: { id: house.id }, body: { reason: reason.trim() } });
          said(`${house.address} is open again as a new revision`);
        }}
      >
        <p>The sealed revision stays as it is and can be checked at any time.</p>
        <Textarea
          label="Reason"
          autosize
          required
          maxLength={1000}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
      </Confirm>
    </>
  );
}
