import { Textarea } from '@mantine/core';
import { review, type WholeFile } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
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
