import { NumberInput, TextInput } from '@mantine/core';
import { sampling, weighingReasons, type Draw, type WeighingReason } from '@countercheck/contracts';
import { FormBody } from '../../../components/feedback/index.ts';
import { Choice, optionsOf } from '../../../components/fields/index.ts';
import type { BodyOf } from '../../../lib/client.ts';
import { useContractForm } from '../../../lib/forms/index.ts';
import { useAction } from '../../../lib/query.ts';
import { methodLeads, methodWords, purposeWords } from '../words.ts';

interface PublishFormProps {
  onDone: (draw: Draw) => void;
  onCancel: () => void;
}

const usualPoints = Object.fromEntries(
  Object.entries(weighingReasons).map(([reason, { points }]) => [reason, points]),
) as Record<WeighingReason, number | string>;

const initialValues = {
  title: '',
  purpose: 'file-review' as Draw['purpose'],
  method: 'stratified' as Draw['method'],
  by: 'share' as 'share' | 'count',
  percent: 10 as number | string,
  count: 10 as number | string,
  points: usualPoints,
};
const whole = (value: number | string) => (value === '' ? undefined : Number(value));

/** First step: what is decided before anybody knows the population. */
export function PublishForm({ onDone, onCancel }: PublishFormProps) {
  const publish = useAction(sampling.publishDraw, { invalidates: [sampling.draws], onDone });
  const of = useContractForm({
    schema: sampling.publishDraw.body,
    initialValues,
    toBody: ({ title, purpose, method, by, percent, count, points }) => ({
      ...{ title, purpose, method },
      size: by === 'share' ? { share: Math.round((whole(percent) ?? 0) * 100) } : { count: whole(count) },
      weighing:
        method === 'risk-weighted'
          ? Object.fromEntries(Object.entries(points).map(([key, value]) => [key, whole(value)]))
          : null,
    }),
    send: (body) => publish.mutateAsync({ body: body as BodyOf<typeof sampling.publishDraw> }),
  });
  const { form } = of;
  const field = form.getInputProps;
  const { method, by } = form.getValues();
  return (
    <FormBody of={of} action="Publish the commitment" onCancel={onCancel}>
      <p className="soft">
        The service makes a secret seed now and publishes its hash. Method and size are fixed with it, before
        the population is; nobody can choose them by what they would draw.
      </p>
      <TextInput label="Title" placeholder="Third quarter, file reviews" {...field('title')} />
      <div className="fields">
        <Choice label="For" options={optionsOf(purposeWords)} {...field('purpose')} />
        <Choice
          label="Method"
          options={optionsOf(methodWords)}
          description={methodLeads[method]}
          {...field('method')}
        />
        <Choice
          label="Size by"
          options={[
            { value: 'share', label: 'Share of the population' },
            { value: 'count', label: 'Number' },
          ]}
          {...field('by')}
        />
        {by === 'share' ? (
          <NumberInput
            label="Share, %"
            min={0.01}
            max={100}
            decimalScale={2}
            {...field('percent')}
            error={form.errors['size'] ?? form.errors['size.share']}
          />
        ) : (
          <NumberInput
            label="Files"
            min={1}
            allowDecimal={false}
            {...field('count')}
            error={form.errors['size'] ?? form.errors['size.count']}
          />
        )}
      </div>
      {method === 'risk-weighted' && (
        <fieldset className="fields">
          <legend>Points (common practice, no published source)</legend>
          {Object.entries(weighingReasons).map(([reason, { words }]) => (
            <NumberInput
              key={reason}
              label={words}
              min={reason === 'base' ? 1 : 0}
              allowDecimal={false}
              {...field(`points.${reason}`)}
              error={form.errors[`weighing.${reason}`]}
            />
          ))}
        </fieldset>
      )}
    </FormBody>
  );
}
