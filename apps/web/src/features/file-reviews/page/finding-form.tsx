import { Textarea, TextInput } from '@mantine/core';
import { fileReviews, severities, visits, type FileReview, type ReviewStep } from '@countercheck/contracts';
import { Dialog, FormBody, said } from '../../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../../components/fields/index.ts';
import type { BodyOf } from '../../../lib/client.ts';
import { addDays, today } from '../../../lib/dates.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction, useRoute } from '../../../lib/query.ts';
import { useMe } from '../../../lib/session.ts';
import { severityWords } from '../../../lib/words/work.ts';

interface Props {
  review: FileReview;
  step: ReviewStep;
  onClose: () => void;
  onFound: () => void;
}

/** A finding at one step: which line of the checklist, how grave, who puts it right and by when. */
export function FindingForm({ review, step, onClose, onFound }: Props) {
  const day = today(useMe().company.timezone);
  const raters = useRoute(visits.raters, {});
  const checks =
    step.kind === 'reading'
      ? review.checklist.reading
      : review.checklist.file.filter(({ key }) => step.step === `check:${key}`);
  const [proposed] = checks;
  const find = useAction(fileReviews.find, { invalidates: [fileReviews.show] });
  const of = useContractForm({
    schema: fileReviews.find.body,
    initialValues: {
      ...{ step: step.step, check: proposed?.key ?? '', severity: proposed?.severity ?? 'minor', text: '' },
      responsibleId: review.rater.id,
      dueOn: addDays(day, proposed?.days ?? 14),
    },
    send: async (body) => {
      await find.mutateAsync({ params: { id: review.id }, body: body as BodyOf<typeof fileReviews.find> });
      said('Finding noted');
      onFound();
    },
  });
  const { form } = of;
  const people = new Map((raters.data ?? []).map(({ id, name }) => [id, name]));
  people.set(review.rater.id, review.rater.name);
  return (
    <Dialog title={`Finding: ${step.title}${step.subject ? `, ${step.subject}` : ''}`} onClose={onClose}>
      <FormBody of={of} action="Note it" onCancel={onClose}>
        <Textarea
          label="What was found"
          autosize
          minRows={2}
          required
          data-autofocus
          {...form.getInputProps('text')}
        />
        <div className="fields">
          <Choice
            label="About"
            options={checks.map(({ key, title }) => ({ value: key, label: title }))}
            value={form.getValues().check}
            onChange={(key) => {
              const check = checks.find((each) => each.key === key);
              form.setValues({
                check: key ?? '',
                ...(check ? { severity: check.severity, dueOn: addDays(day, check.days) } : {}),
              });
            }}
          />
          <Choice
            label="Severity"
            options={optionsOf(severityWords)}
            value={form.getValues().severity}
            onChange={(value) =>
              form.setFieldValue('severity', severities.find((each) => each === value) ?? 'minor')
            }
          />
          <Choice
            label="To be put right by"
            options={[...people].map(([value, label]) => ({ value, label }))}
            value={form.getValues().responsibleId}
            onChange={(id) => form.setFieldValue('responsibleId', id ?? review.rater.id)}
          />
          <TextInput type="date" label="Due" {...form.getInputProps('dueOn')} />
        </div>
      </FormBody>
    </Dialog>
  );
}
