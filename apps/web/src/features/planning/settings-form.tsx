import { NumberInput, TextInput } from '@mantine/core';
import { planning, type PlanningSettings } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Asked } from '../../components/states/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';

/** Where the office is and how time on the road is worked out. */
export function SettingsForm({ onClose }: { onClose: () => void }) {
  const query = useRoute(planning.settings, {});
  return <Asked query={query}>{(settings) => <Fields settings={settings} onClose={onClose} />}</Asked>;
}

const given = (value: string | number) => (value === '' ? null : value);

function Fields({ settings, onClose }: { settings: PlanningSettings; onClose: () => void }) {
  const change = useAction(planning.changeSettings, { invalidates: [planning.settings] });
  const of = useContractForm({
    schema: planning.changeSettings.body,
    initialValues: {
      officeLatitude: settings.officeLatitude ?? '',
      officeLongitude: settings.officeLongitude ?? '',
      ...{ circuity: settings.circuity as number | string, speed: settings.speed as number | string },
      routingUrl: settings.routingUrl ?? '',
    },
    toBody: (values) => ({
      ...values,
      officeLatitude: given(values.officeLatitude),
      officeLongitude: given(values.officeLongitude),
      routingUrl: values.routingUrl.trim() || null,
    }),
    send: async (body) => {
      await change.mutateAsync({ body: body as BodyOf<typeof planning.changeSettings> });
      said('Kept. The next plan uses it.');
      onClose();
    },
  });
  const field = of.form.getInputProps;
  return (
    <FormBody of={of} action="Save" onCancel={onClose}>
      <NumberInput label="Office, latitude" suffix="°" decimalScale={6} {...field('officeLatitude')} />
      <NumberInput label="Office, longitude" suffix="°" decimalScale={6} {...field('officeLongitude')} />
      <NumberInput
        label="Roads over straight lines"
        description="1.3 means that a road is three tenths longer than the straight line."
        step={0.1}
        {...field('circuity')}
      />
      <NumberInput label="Speed, km/h" description="Door to door." {...field('speed')} />
      <TextInput
        label="Routing service"
        description="Address of a service that answers with a table of minutes; empty = by the figures above."
        {...field('routingUrl')}
      />
    </FormBody>
  );
}
