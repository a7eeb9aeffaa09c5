import { Textarea } from '@mantine/core';
import { appealDecisions, fileReviews, severities, type FileFinding } from '@countercheck/contracts';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../components/fields/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction } from '../../lib/query.ts';
import { decisionWords } from '../../lib/words/quality.ts';
import { severityWords } from '../../lib/words/work.ts';

interface Props {
  finding: FileFinding;
  onClose: () => void;
}

const changed = { invalidates: [fileReviews.show, fileReviews.list, fileReviews.findings] };

/** What was done about a finding, by whoever is responsible. */
export function AnswerForm({ finding, onClose }: Props) {
  const answer = useAction(fileReviews.answer, changed);
  const of = useContractForm({
    schema: fileReviews.answer.body,
    initialValues: { answer: finding.answer ?? '' },
    send: async (body) => {
      await answer.mutateAsync({ params: { id: finding.id }, body });
      said('Answer kept');
      onClose();
    },
  });
  return (
    <Dialog title="Answer the finding" onClose={onClose}>
      <FormBody of={of} action="Keep the answer" onCancel={onClose}>
        <p>{finding.text}</p>
        <Textarea label="What was done" autosize required {...of.form.getInputProps('answer')} />
      </FormBody>
    </Dialog>
  );
}

/** Why a finding should not stand, by the rater whose file it is. */
export function AppealForm({ finding, onClose }: Props) {
  const appeal = useAction(fileReviews.appeal, changed);
  const of = useContractForm({
    schema: fileReviews.appeal.body,
    initialValues: { appeal: '' },
    send: async (body) => {
      await appeal.mutateAsync({ params: { id: finding.id }, body });
      said('The appeal is with a second person');
      onClose();
    },
  });
  return (
    <Dialog title="Appeal against the finding" onClose={onClose}>
      <FormBody of={of} action="Appeal" onCancel={onClose}>
        <p>{finding.text}</p>
        <p className="soft">Somebody who did not find it decides. The decision stands.</p>
        <Textarea label="Why it should not stand" autosize required {...of.form.getInputProps('appeal')} />
      </FormBody>
    </Dialog>
  );
}

/** Accepting an answer. */
export function SettleForm({ finding, onClose }: Props) {
  const settle = useAction(fileReviews.settle, changed);
  const of = useContractForm({
    schema: fileReviews.settle.body,
    initialValues: { note: '' },
    send: async (body) => {
      await settle.mutateAsync({ params: { id: finding.id }, body });
      said('The finding is settled');
      onClose();
    },
  });
  return (
    <Dialog title="Accept the answer" onClose={onClose}>
      <FormBody of={of} action="Settle the finding" onCancel={onClose}>
        <p>{finding.answer}</p>
        <Textarea label="Note" description="May be left out." autosize {...of.form.getInputProps('note')} />
      </FormBody>
    </Dialog>
  );
}

/** Deciding an appeal, by somebody who did not find it. */
export function DecideForm({ finding, onClose }: Props) {
  const decide = useAction(fileReviews.decide, changed);
  const of = useContractForm({
    schema: fileReviews.decide.body,
    initialValues: {
      decision: 'upheld' as (typeof appealDecisions)[number],
      severity: finding.severity as string,
      reason: '',
    },
    toBody: ({ severity, ...rest }) => ({ ...rest, ...(rest.decision === 'changed' ? { severity } : {}) }),
    send: async (body) => {
      await decide.mutateAsync({
        params: { id: finding.id },
        body: body as BodyOf<typeof fileReviews.decide>,
      });
      said('The appeal is decided');
      onClose();
    },
  });
  const { form } = of;
  return (
    <Dialog title="Decide the appeal" onClose={onClose}>
      <FormBody of={of} action="Decide" onCancel={onClose}>
        <p>Finding: {finding.text}</p>
        <p>Appeal: {finding.appeal}</p>
        <Choice
          label="Decision"
          options={optionsOf(decisionWords)}
          value={form.getValues().decision}
          onChange={(value) =>
            form.setFieldValue('decision', appealDecisions.find((each) => each === value) ?? 'upheld')
          }
        />
        {form.getValues().decision === 'changed' && (
          <Choice
            label="Severity"
            options={optionsOf(severityWords)}
            value={form.getValues().severity}
            onChange={(value) =>
              form.setFieldValue('severity', severities.find((each) => each === value) ?? 'minor')
            }
          />
        )}
        <Textarea label="Reason" autosize required {...form.getInputProps('reason')} />
      </FormBody>
    </Dialog>
  );
}
