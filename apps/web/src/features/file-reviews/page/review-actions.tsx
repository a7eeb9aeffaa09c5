import { Button, Group } from '@mantine/core';
import { fileReviews, type FileReview } from '@countercheck/contracts';
import { useState } from 'react';
import { ConfirmWords, said } from '../../../components/feedback/index.ts';
import { useAction } from '../../../lib/query.ts';
import { useRole } from '../../../lib/session.ts';

const changed = [fileReviews.show, fileReviews.list, fileReviews.findings];

/** Putting a review back, withdrawing it, opening it again. */
export function ReviewActions({ review }: { review: FileReview }) {
  const isQuality = useRole('quality');
  const [asking, setAsking] = useState<'reopen' | 'withdraw' | null>(null);
  const params = { id: review.id };
  const putBack = useAction(fileReviews.putBack, { invalidates: changed });
  const reopen = useAction(fileReviews.reopen, { invalidates: changed });
  const withdraw = useAction(fileReviews.withdraw, { invalidates: changed });
  const mayWithdraw = review.state === 'open' && review.source !== 'draw';
  const mayReopen = review.state === 'done' && !review.ownWork;
  const mayPutBack = isQuality && review.mine && review.state === 'open';
  if (!mayWithdraw && !mayReopen && !mayPutBack) return null;
  return (
    <Group gap="xs">
      {mayPutBack && (
        <Button variant="default" loading={putBack.isPending} onClick={() => putBack.mutate({ params })}>
          Put it back
        </Button>
      )}
      {mayWithdraw && (
        <Button variant="default" onClick={() => setAsking('withdraw')}>
          Withdraw
        </Button>
      )}
      {mayReopen && (
        <Button variant="default" onClick={() => setAsking('reopen')}>
          Open again
        </Button>
      )}
      <ConfirmWords
        title={asking === 'reopen' ? 'Open the review again?' : 'Withdraw the review?'}
        opened={asking !== null}
        onClose={() => setAsking(null)}
        action={asking === 'reopen' ? 'Open it again' : 'Withdraw it'}
        label="Reason"
        required
        onConfirm={async (reason) => {
          await (asking === 'reopen' ? reopen : withdraw).mutateAsync({ params, body: { reason } });
          said(asking === 'reopen' ? 'The review is open again.' : 'The review is withdrawn.');
        }}
      />
    </Group>
  );
}
