import { Button, TextInput, Textarea } from '@mantine/core';
import { fileReviews, type FileReviewSummary } from '@countercheck/contracts';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { HouseChoice, RaterChoice } from '../../components/choosers/index.ts';
import { Dialog, FormBody } from '../../components/feedback/index.ts';
import { Tag } from '../../components/marks/index.ts';
import { DateText, Moment, Page } from '../../components/page/index.ts';
import { ChoiceFilter, DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import type { BodyOf } from '../../lib/client.ts';
import { addDays, today } from '../../lib/dates.ts';
import { useContractForm } from '../../lib/forms/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { useMe } from '../../lib/session.ts';
import { reviewStateWords, sourceWords } from '../../lib/words/quality.ts';

const shown = [
  { value: 'mine', label: 'Mine' },
  { value: 'unassigned', label: 'Nobody has taken' },
  { value: 'overdue', label: 'Overdue' },
  { value: 'appealed', label: 'Under appeal' },
  { value: 'done', label: 'Finished' },
] as const;

const columns: Column<FileReviewSummary>[] = [
  {
    title: 'House',
    head: true,
    cell: (row) => (
      <>
        <Link to={`/file-reviews/${row.id}`}>{row.house.address}</Link>
        <span className="small soft"> lot {row.house.lot}</span>
      </>
    ),
  },
  { title: 'Builder', cell: (row) => row.house.builder.name },
  { title: 'Rater', cell: (row) => row.rater.name },
  { title: 'Why', cell: (row) => sourceWords[row.source] },
  {
    title: 'Due',
    cell: (row) => (
      <>
        <DateText date={row.dueOn} /> {row.overdue && <Tag tone="bad">Overdue</Tag>}
      </>
    ),
  },
  { title: 'Reviewer', cell: (row) => row.reviewer?.name ?? 'Nobody yet' },
  { title: 'State', cell: (row) => <State review={row} /> },
];

function State({ review: { state, outcome, openFindings, doneAt } }: { review: FileReviewSummary }) {
  if (state !== 'done')
    return <Tag tone={state === 'open' ? 'plain' : 'brass'}>{reviewStateWords[state]}</Tag>;
  return (
    <>
      <Tag tone={outcome === 'clean' ? 'good' : 'bad'}>{outcome === 'clean' ? 'Clean' : 'Findings'}</Tag>{' '}
      <span className="small soft">
        {openFindings > 0 && `${openFindings} open, `}
        <Moment at={doneAt} day />
      </span>
    </>
  );
}

/** The desk: files to be looked at a second time, the one due first on top. */
export default function ReviewsPage() {
  const { values, page, change } = useListSearch();
  const query = useRoute(
    fileReviews.list,
    {
      query: {
        page,
        which: oneOf(['mine', 'unassigned', 'overdue', 'appealed', 'done'], values.which) ?? 'open',
        raterId: values.raterId,
        search: values.search,
      },
    },
    { keepPrevious: true },
  );
  const [ordering, setOrdering] = useState(false);
  return (
    <Page
      title="File reviews"
      lead="Submitted and released files, looked at a second time by somebody who did not measure."
      actions={<Button onClick={() => setOrdering(true)}>Order a review</Button>}
    >
      <DataTable
        caption="File reviews"
        query={query}
        columns={columns}
        keyOf={(row) => row.id}
        filters={
          <>
            <SearchFilter label="Address or lot" />
            <ChoiceFilter label="Show" name="which" none="Every open review" options={shown} />
            <RaterChoice value={values.raterId ?? null} onChange={(raterId) => change({ raterId })} />
          </>
        }
        empty="No such review"
      />
      {ordering && <OrderReview onClose={() => setOrdering(false)} />}
    </Page>
  );
}

function OrderReview({ onClose }: { onClose: () => void }) {
  const day = today(useMe().company.timezone);
  const navigate = useNavigate();
  const order = useAction(fileReviews.order, {
    invalidates: [fileReviews.list],
    onDone: ({ id }) => navigate({ to: `/file-reviews/${id}` }),
  });
  const of = useContractForm({
    schema: fileReviews.order.body,
    initialValues: { houseId: null as string | null, dueOn: addDays(day, 14), reason: '' },
    send: (body) => order.mutateAsync({ body: body as BodyOf<typeof fileReviews.order> }),
  });
  const { form } = of;
  return (
    <Dialog title="Order a review" onClose={onClose}>
      <FormBody of={of} action="Order" onCancel={onClose}>
        <HouseChoice
          value={form.getValues().houseId}
          onChange={(id) => form.setFieldValue('houseId', id)}
          error={form.errors.houseId as string | undefined}
        />
        <TextInput type="date" label="Due" {...form.getInputProps('dueOn')} />
        <Textarea label="Why" description="May be left out." autosize {...form.getInputProps('reason')} />
      </FormBody>
    </Dialog>
  );
}
