import { Button, Checkbox, Group, Textarea, TextInput } from '@mantine/core';
import { signals, type SignalFinding } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { ButtonLink, DateText, FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe, useRole } from '../../lib/session.ts';
import { EvidenceView } from './evidence.tsx';
import './signals.css';
import { chanceWords, innocentWords, signalWords, stateWords } from './words.ts';

const invalidates = [signals.finding, signals.findings];
const daysToDo = 30;
const proposedRetests = 1;
const proposedReviews = 5;

export default function SignalPage() {
  const id = useParam('id');
  const query = useRoute(signals.finding, { params: { id } });
  return <Asked query={query}>{(finding) => <Sheet finding={finding} />}</Asked>;
}

interface DecisionProps {
  finding: SignalFinding;
  onDone: () => void;
  onCancel: () => void;
}

function DismissForm({ finding: { id }, onDone, onCancel }: DecisionProps) {
  const dismiss = useAction(signals.dismiss, { invalidates, onDone });
  const of = useContractForm({
    schema: signals.dismiss.body,
    initialValues: { reason: '' },
    toBody: (values) => values,
    send: (body) => dismiss.mutateAsync({ params: { id }, body }),
  });
  return (
    <FormBody of={of} action="Lay it aside" onCancel={onCancel}>
      <Textarea
        label="Why"
        description="Stands with the finding and in the log."
        autosize
        required
        {...of.form.getInputProps('reason')}
      />
    </FormBody>
  );
}

function OrderForm({ finding: { id, behind }, onDone, onCancel }: DecisionProps) {
  const day = today(useMe().company.timezone);
  const order = useAction(signals.order, { invalidates, onDone });
  const ids = behind.map((house) => house.id);
  const of = useContractForm({
    schema: signals.order.body,
    initialValues: {
      ...{ reviews: ids.slice(0, proposedReviews), retests: ids.slice(0, proposedRetests) },
      ...{ dueOn: addDays(day, daysToDo), reason: '' },
    },
    toBody: (values) => values,
    send: (body) => order.mutateAsync({ params: { id }, body }),
  });
  const { form } = of;
  const values = form.getValues();
  const toggle = (list: 'reviews' | 'retests', house: string) =>
    form.setFieldValue(
      list,
      values[list].includes(house) ? values[list].filter((each) => each !== house) : [...values[list], house],
    );
  return (
    <FormBody of={of} action="Order" onCancel={onCancel}>
      <div className="fields">
        <TextInput type="date" label="Due on" {...form.getInputProps('dueOn')} />
      </div>
      <RowsTable
        caption="Houses behind the finding"
        rows={behind}
        keyOf={(house) => house.id}
        columns={[
          { title: 'House', head: true, cell: (house) => `${house.address}, lot ${house.lot}` },
          {
            title: 'Review the file',
            cell: (house) => (
              <Checkbox
                aria-label={`Review the file of ${house.address}`}
                checked={values.reviews.includes(house.id)}
                onChange={() => toggle('reviews', house.id)}
              />
            ),
          },
          {
            title: 'Measure again',
            cell: (house) => (
              <Checkbox
                aria-label={`Measure ${house.address} again`}
                checked={values.retests.includes(house.id)}
                onChange={() => toggle('retests', house.id)}
              />
            ),
          },
        ]}
      />
      {form.errors['reviews'] && (
        <p className="small" role="alert">
          {form.errors['reviews']}
        </p>
      )}
      <Textarea label="What for" autosize required {...form.getInputProps('reason')} />
    </FormBody>
  );
}

function Decision({ finding }: { finding: SignalFinding }) {
  const [asking, setAsking] = useState<'order' | 'dismiss' | null>(null);
  const mayDecide = useRole('quality');
  const close = () => setAsking(null);
  if (finding.state === 'dismissed') return null;
  if (!mayDecide) return <p className="soft">The quality manager decides about it.</p>;
  return (
    <Group gap="xs">
      <Button onClick={() => setAsking('order')}>Order reviews or re-tests</Button>
      <ButtonLink to="/corrective-actions" search={{ about: finding.rater.id }} variant="default">
        Open a corrective action
      </ButtonLink>
      {finding.state === 'open' && (
        <Button variant="default" onClick={() => setAsking('dismiss')}>
          Lay it aside
        </Button>
      )}
      {asking === 'order' && (
        <Dialog title="Order reviews or re-tests" onClose={close} wide>
          <OrderForm
            finding={finding}
            onCancel={close}
            onDone={() => {
              close();
              said('Ordered');
            }}
          />
        </Dialog>
      )}
      {asking === 'dismiss' && (
        <Dialog title="Lay the finding aside" onClose={close}>
          <DismissForm finding={finding} onCancel={close} onDone={close} />
        </Dialog>
      )}
    </Group>
  );
}

function Sheet({ finding }: { finding: SignalFinding }) {
  const { signal, sentence, rater, looked, q, p, state, reason, decidedBy, decidedAt, behind, earlier } =
    finding;
  return (
    <Page
      title={signalWords[signal]}
      back={{ to: '/signals', label: 'Signals' }}
      lead={sentence}
      actions={<Decision finding={finding} />}
    >
      <Panel title="Finding">
        <FactList
          facts={[
            ['State', <Tag tone={state === 'open' ? 'brass' : 'plain'}>{stateWords[state]}</Tag>],
            ['Readings by', rater.name],
            ['Numbers looked at', looked],
            ['Chance of such readings when nothing is wrong', chanceWords(p)],
            ['The same, for all tests of the look together', chanceWords(q)],
            [
              'Decided',
              decidedAt === null ? (
                '–'
              ) : (
                <>
                  <Moment at={decidedAt} />, {decidedBy}
                </>
              ),
            ],
            ['Reason', reason ?? '–'],
          ]}
        />
        <p>It says where to look, and nothing about a person. {innocentWords[signal]}</p>
      </Panel>
      <Panel title="What the test looked at">
        <EvidenceView evidence={finding.evidence} />
      </Panel>
      <Panel title="Houses behind it">
        <RowsTable
          caption="Houses behind it"
          rows={behind}
          keyOf={(house) => house.id}
          columns={[
            {
              title: 'House',
              head: true,
              cell: (house) => <Link to={`/houses/${house.id}`}>{house.address}</Link>,
            },
            { title: 'Lot', cell: (house) => house.lot },
            { title: 'Community', cell: (house) => house.community },
            {
              title: 'Tested',
              cell: (house) => (house.testedOn ? <DateText date={house.testedOn} /> : '–'),
            },
          ]}
        />
      </Panel>
      {earlier.length > 0 && (
        <Panel title="The same signal before">
          <RowsTable
            caption="The same signal before"
            rows={earlier}
            keyOf={(row) => row.id}
            columns={[
              {
                title: 'Found',
                head: true,
                cell: (row) => (
                  <Link to={`/signals/${row.id}`}>
                    <Moment at={row.createdAt} />
                  </Link>
                ),
              },
              { title: 'What became of it', cell: (row) => stateWords[row.state] },
              { title: 'Reason', cell: (row) => row.reason ?? '–' },
            ]}
          />
        </Panel>
      )}
    </Page>
  );
}
