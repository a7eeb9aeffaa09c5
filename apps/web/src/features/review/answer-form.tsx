import { Button, Textarea } from '@mantine/core';
import { houses, review, type WholeFile } from '@countercheck/contracts';
import { useState } from 'react';
import { Confirm, FormBody, said } from '../../components/feedback/index.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';

type Finding = WholeFile['reviews'][number]['findings'][number];

/** The office's answer to a finding of a returned file. */
export function AnswerForm({ finding }: { finding: Finding }) {
  const answer = useAction(review.answer, { invalidates: [review.file] });
  const contract = useContractForm({
    schema: review.answer.body,
    initialValues: { answer: finding.answer ?? '' },
    send: async (body) => {
      await answer.mutateAsync({ params: { id: finding.id }, body });
      said('Answer kept.');
    },
  });
  return (
    <FormBody of={contract} action="Keep the answer">
      <Textarea
        label="Answer"
        aria-label={`Answer to: ${finding.text}`}
        autosize
        {...contract.form.getInputProps('answer')}
      />
    </FormBody>
  );
}

/** Puts a returned file before the quality manager again. */
export function SendBack({ houseId }: { houseId: string }) {
  const [asking, setAsking] = useState(false);
  const [note, setNote] = useState('');
  const sendBack = useAction(review.sendBack, {
    invalidates: [review.file, review.queue, houses.list, houses.show],
  });
  return (
    <>
      <div>
        <Button onClick={() => setAsking(true)}>Send to review again</Button>
      </div>
      <Confirm
        title="Send to review again?"
        opened={asking}
        onClose={() => setAsking(false)}
        action="Send"
        onConfirm={async () => {
          await sendBack.mutateAsync({ params: { id: houseId }, body: { note } });
          said('The file is with the quality manager.');
        }}
      >
        <Textarea
          label="Note"
          description="May be left out."
          autosize
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
      </Confirm>
    </>
  );
}
