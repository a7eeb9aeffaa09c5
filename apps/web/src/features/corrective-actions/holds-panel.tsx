import { Button, Textarea, TextInput } from '@mantine/core';
import { correctiveActions, type RaterHold } from '@countercheck/contracts';
import { useState } from 'react';
import { RaterChoice } from '../../components/choosers/index.ts';
import { Dialog, FormBody, said } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { instantOf, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';

const changed = {
  invalidates: [
    ...[correctiveActions.holds, correctiveActions.bookingHolds],
    ...[correctiveActions.list, correctiveActions.show],
  ],
};

/** A hold's state in words. */
function State({ hold }: { hold: RaterHold }) {
  if (hold.liftedAt === null) return <Tag tone="bad">Held</Tag>;
  return (
    <>
      <Tag tone="good">Lifted</Tag>{' '}
      <span className="small soft">
        {hold.liftedBy}, <Moment at={hold.liftedAt} day />: {hold.liftReason}
      </span>
    </>
  );
}

/** Holds in a table, with lifting those in force. */
export function HoldsTable({ holds }: { holds: readonly RaterHold[] }) {
  const [lifting, setLifting] = useState<RaterHold | null>(null);
  const columns: Column<RaterHold>[] = [
    { title: 'Rater', head: true, cell: (row) => row.rater.name },
    { title: 'From', cell: (row) => <Moment at={row.from} /> },
    { title: 'Why', cell: (row) => row.reason },
    { title: 'Placed by', cell: (row) => row.placedBy },
    { title: 'Still booked', figure: true, cell: (row) => row.booked },
    { title: 'State', cell: (row) => <State hold={row} /> },
    {
      title: 'Lifting',
      cell: (row) =>
        row.liftedAt === null && (
          <Button
            variant="default"
            size="xs"
            aria-label={`Lift the hold on ${row.rater.name}`}
            onClick={() => setLifting(row)}
          >
            Lift
          </Button>
        ),
    },
  ];
  return (
    <>
      <RowsTable caption="Holds" rows={holds} columns={columns} keyOf={({ id }) => id} />
      {lifting && <LiftForm hold={lifting} onClose={() => setLifting(null)} />}
    </>
  );
}

/** Everybody who is held now, whatever for. */
export function HoldsPanel() {
  const query = useRoute(correctiveActions.holds, { query: { inForce: 'true', pageSize: 100 } });
  const [placing, setPlacing] = useState(false);
  return (
    <Panel
      title="Raters held now"
      flush
      actions={
        <Button variant="default" onClick={() => setPlacing(true)}>
          Hold a rater
        </Button>
      }
    >
      <Asked query={query}>
        {({ items }) =>
          items.length === 0 ? (
            <p className="panel-body soft">Nobody is held.</p>
          ) : (
            <HoldsTable holds={items} />
          )
        }
      </Asked>
      {placing && <HoldForm onClose={() => setPlacing(false)} />}
    </Panel>
  );
}

interface HoldFormProps {
  /** on account of an action, which then lifts it by itself */
  action?: { id: string; raterId: string };
  onClose: () => void;
}

/** Holds a rater from a day on. */
export function HoldForm({ action, onClose }: HoldFormProps) {
  const zone = useMe().company.timezone;
  const hold = useAction(correctiveActions.hold, changed);
  const of = useContractForm({
    schema: correctiveActions.hold.body,
    initialValues: { raterId: action?.raterId ?? (null as string | null), day: today(zone), reason: '' },
    toBody: ({ day, ...rest }) => ({
      ...rest,
      from: instantOf(day, '00:00', zone),
      correctiveActionId: action?.id ?? null,
    }),
    send: async (body) => {
      const { booked } = await hold.mutateAsync({ body: body as BodyOf<typeof correctiveActions.hold> });
      said(booked > 0 ? `Held. The office is told of ${booked} visits still booked.` : 'Held.');
      onClose();
    },
  });
  const { form } = of;
  return (
    <Dialog title="Hold a rater" onClose={onClose}>
      <FormBody of={of} action="Hold" onCancel={onClose}>
        {!action && (
          <RaterChoice
            none="Choose a rater"
            value={form.getValues().raterId}
            onChange={(id) => form.setFieldValue('raterId', id)}
            error={form.errors.raterId as string | undefined}
          />
        )}
        <TextInput type="date" label="Held from" {...form.getInputProps('day')} error={form.errors.from} />
        <Textarea
          label="Why"
          description="The office reads it where it books."
          autosize
          required
          {...form.getInputProps('reason')}
        />
      </FormBody>
    </Dialog>
  );
}

function LiftForm({ hold, onClose }: { hold: RaterHold; onClose: () => void }) {
  const lift = useAction(correctiveActions.lift, changed);
  const of = useContractForm({
    schema: correctiveActions.lift.body,
    initialValues: { reason: '' },
    send: async (body) => {
      await lift.mutateAsync({ params: { id: hold.id }, body });
      said(`${hold.rater.name} can be booked again.`);
      onClose();
    },
  });
  return (
    <Dialog title={`Lift the hold on ${hold.rater.name}`} onClose={onClose}>
      <FormBody of={of} action="Lift it" onCancel={onClose}>
        <Textarea label="Reason" autosize required {...of.form.getInputProps('reason')} />
      </FormBody>
    </Dialog>
  );
}
