import { Checkbox, TextInput } from '@mantine/core';
import { administration, service, session, type Company } from '@countercheck/contracts';
import { FormBody, said } from '../../components/feedback/index.ts';
import { Choice, QuantityInput } from '../../components/fields/index.ts';
import { Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';

/** The zones this browser knows, and the company's own even if it is none of them. */
const zonesWith = (own: string) =>
  [...new Set([own, ...Intl.supportedValuesOf('timeZone')])].map((zone) => ({
    value: zone,
    label: zone.replaceAll('_', ' '),
  }));
const decisionRules = [
  { value: 'simple-acceptance', label: 'Simple acceptance: the result alone decides' },
  { value: 'guard-band', label: 'Guard band: a pass keeps its distance from the limit' },
];
const usualFactor = 1;
const systems = [
  { value: 'us', label: 'cfm, ft², in. w.c.' },
  { value: 'si', label: 'L/s, m², Pa' },
];

export default function CompanyPage() {
  const query = useRoute(administration.company, {});
  return (
    <Page title="Company options" width="reading">
      <Asked query={query}>{(company) => <CompanyForm company={company} />}</Asked>
    </Page>
  );
}

function CompanyForm({ company }: { company: Company }) {
  const sets = useRoute(service.ruleSets, {});
  const change = useAction(administration.changeCompany, {
    invalidates: [administration.company, session.me],
  });
  const { updatedAt, ...initialValues } = company;
  const of = useContractForm({
    schema: administration.changeCompany.body,
    initialValues,
    send: async (values) => {
      await change.mutateAsync({ body: values as BodyOf<typeof administration.changeCompany> });
      said('Options saved');
    },
  });
  const field = of.form.getInputProps;
  const { decisionRule } = of.form.getValues();
  return (
    <Panel
      title="Options"
      actions={
        <span className="small soft">
          Changed <Moment at={updatedAt} />
        </span>
      }
    >
      <FormBody of={of} action="Save">
        <div className="fields">
          <TextInput label="Company name" {...field('name')} />
          <Choice label="Time zone" options={zonesWith(company.timezone)} {...field('timezone')} />
          <Choice label="Units for new users" options={systems} {...field('unitSystem')} />
          <QuantityInput
            kind="count"
            label="Days an installer's link can be used"
            {...field('installerLinkDays')}
          />
          <Choice
            label="Rule set for new houses"
            none="None; it must be chosen each time"
            options={(sets.data ?? [])
              .filter((set) => set.offered || set.id === company.defaultRuleSetId)
              .map(({ id, title, version }) => ({ value: id, label: `${title} ${version}` }))}
            {...field('defaultRuleSetId')}
          />
        </div>
        <div className="fields">
          <Choice
            label="Deciding near a limit"
            description="A pass closer to its limit than its uncertainty is marked in either case. A change judges the open houses again; released files stay."
            options={decisionRules}
            value={decisionRule.rule}
            onChange={(rule) =>
              of.form.setFieldValue(
                'decisionRule',
                rule === 'guard-band'
                  ? { rule, factor: usualFactor }
                  : { rule: 'simple-acceptance' as const },
              )
            }
          />
          {decisionRule.rule === 'guard-band' && (
            <QuantityInput
              kind="ratio"
              label="Width of the guard band"
              description="In expanded uncertainties (95 %) of the result; 1 leaves about one chance in forty that a pass truly fails."
              {...field('decisionRule.factor')}
            />
          )}
        </div>
        <TextInput
          label="Who is sent the head of the event log each day"
          description="Best somebody outside the company who keeps it, as the auditor. Leave empty to send it to nobody."
          type="email"
          {...field('logHeadEmail')}
          value={of.form.getValues().logHeadEmail ?? ''}
          onChange={(event) => of.form.setFieldValue('logHeadEmail', event.currentTarget.value || null)}
        />
        <Checkbox
          label="Raters read without seeing the installer's figures"
          description="They appear once the rater's own reading is recorded."
          {...field('blindSecondReading', { type: 'checkbox' })}
        />
        <Checkbox
          label="Require a second factor"
          description="Whoever has none yet is led to setting one up."
          {...field('requireSecondFactor', { type: 'checkbox' })}
        />
      </FormBody>
    </Panel>
  );
}
