import { Button, Textarea, TextInput } from '@mantine/core';
import { retests, type RetestSummary } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { BookDialog } from '../../components/booking/index.ts';
import { HouseChoice, RaterChoice } from '../../components/choosers/index.ts';
import { Dialog, FormBody } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { ButtonLink, DateText, Moment, Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe, useRole } from '../../lib/session.ts';
import { retestStateWords, sourceWords } from '../../lib/words/quality.ts';
import { OutcomeTag } from './outcome-tag.tsx';

const shown = [
  { value: 'overdue', label: 'Overdue' },
  { value: 'done', label: 'Done' },
  { value: 'differs', label: 'Done, and the two differ' },
  { value: 'withdrawn', label: 'Withdrawn' },
] as const;

/** Houses to be measured a second time, the one due first on top. */
export default function RetestsPage() {
  const { values, page, change } = useListSearch();
  const onDesk = useRole('quality', 'administrator');
  const books = useRole('office', 'administrator');
  const [ordering, setOrdering] = useState(false);
  const [booking, setBooking] = useState<RetestSummary | null>(null);
  const query = useRoute(
    retests.list,
    {
      query: {
        page,
        which: oneOf(['overdue', 'done', 'differs', 'withdrawn'], values.which) ?? 'open',
        raterId: values.raterId,
        search: values.search,
      },
    },
    { keepPrevious: true },
  );
  const columns: Column<RetestSummary>[] = [
    {
      title: 'House',
      head: true,
      cell: ({ id, house }) => (
        <>
          <Link to={onDesk ? `/retests/${id}` : `/houses/${house.id}`}>{house.address}</Link>
          <span className="small soft"> lot {house.lot}</span>
        </>
      ),
    },
    { title: 'Measured first by', cell: (row) => row.rater.name },
    { title: 'Why', cell: (row) => sourceWords[row.source] },
    {
      title: 'Due',
      cell: (row) => (
        <>
          <DateText date={row.dueOn} /> {row.overdue && <Tag tone="bad">Overdue</Tag>}
        </>
      ),
    },
    {
      title: 'Second visit',
      cell: ({ visit }) =>
        visit ? (
          <>
            {visit.rater.name}, <Moment at={visit.startsAt} day />
          </>
        ) : (
          '–'
        ),
    },
    {
      title: 'State',
      cell: (row) =>
        row.state === 'done' ? (
          <OutcomeTag outcome={row.outcome} />
        ) : (
          <Tag>{retestStateWords[row.state]}</Tag>
        ),
    },
    ...(books
      ? [
          {
            title: 'Booking',
            cell: (row: RetestSummary) =>
              row.state === 'ordered' && (
                <Button
                  variant="default"
                  size="xs"
                  aria-label={`Book the re-test at ${row.house.address}`}
                  onClick={() => setBooking(row)}
                >
                  Book
                </Button>
              ),
          },
        ]
      : []),
  ];
  return (
    <Page
      title="Re-tests"
      lead="Houses measured a second time by another rater, who does not see the first result."
      actions={
        onDesk && (
          <>
            <ButtonLink to="/differences" variant="default">
              Differences over time
            </ButtonLink>
            <Button onClick={() => setOrdering(true)}>Order a re-test</Button>
          </>
        )
      }
    >
      <DataTable
        caption="Re-tests"
        query={query}
        columns={columns}
        keyOf={({ id }) => id}
        filters={
          <>
            <SearchFilter label="Address or lot" />
            <ChoiceFilter label="Show" name="which" none="Every open re-test" options={shown} />
            <RaterChoice
              label="Measured first by"
              value={values.raterId ?? null}
              onChange={(raterId) => change({ raterId })}
            />
          </>
        }
        empty="No such re-test"
      />
      {ordering && <OrderRetest onClose={() => setOrdering(false)} />}
      {booking && (
        <BookDialog
          house={booking.house}
          kind="quality"
          onClose={() => {
            setBooking(null);
            void query.refetch();
          }}
        />
      )}
    </Page>
  );
}

function OrderRetest({ onClose }: { onClose: () => void }) {
  const day = today(useMe().company.timezone);
  const navigate = useNavigate();
  const order = useAction(retests.order, {
    invalidates: [retests.list],
    onDone: ({ id }) => navigate({ to: `/retests/${id}` }),
  });
  const of = useContractForm({
    schema: retests.order.body,
    initialValues: { houseId: null as string | null, dueOn: addDays(day, 21), reason: '' },
    send: (body) => order.mutateAsync({ body: body as BodyOf<typeof retests.order> }),
  });
  const { form } = of;
  return (
    <Dialog title="Order a re-test" onClose={onClose}>
      <FormBody of={of} action="Order" onCancel={onClose}>
        <HouseChoice
          value={form.getValues().houseId}
          onChange={(id) => form.setFieldValue('houseId', id)}
          error={form.errors.houseId as string | undefined}
        />
        <TextInput type="date" label="Due" {...form.getInputProps('dueOn')} />
        <Textarea
          label="Why"
          description="May be left out. The second rater does not see it."
          autosize
          {...form.getInputProps('reason')}
        />
      </FormBody>
    </Dialog>
  );
}
