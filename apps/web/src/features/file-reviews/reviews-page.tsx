import { Button } from '@mantine/core';
import { fileReviews, type FileReviewSummary } from '@countercheck/contracts';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Page } from '../../components/page/index.ts';
import { OrderDialog, SecondLookList } from '../../components/second-looks/index.ts';
import { oneOf, useListSearch } from '../../lib/list-search.ts';
import { useAction, useRoute } from '../../lib/query.ts';
import { reviewStateWords } from '../../lib/words/quality.ts';

const shown = [
  { value: 'mine', label: 'Mine' },
  { value: 'unassigned', label: 'Nobody has taken' },
  { value: 'overdue', label: 'Overdue' },
  { value: 'appealed', label: 'Under appeal' },
  { value: 'done', label: 'Finished' },
] as const;

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
  const { values, page } = useListSearch();
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
  const navigate = useNavigate();
  const order = useAction(fileReviews.order, {
    invalidates: [fileReviews.list],
    onDone: ({ id }) => navigate({ to: `/file-reviews/${id}` }),
  });
  const [ordering, setOrdering] = useState(false);
  return (
    <Page
      title="File reviews"
      lead="Submitted and released files, looked at a second time by somebody who did not measure."
      actions={<Button onClick={() => setOrdering(true)}>Order a review</Button>}
    >
      <SecondLookList
        caption="File reviews"
        query={query}
        to={({ id }) => `/file-reviews/${id}`}
        rater="Rater"
        before={[{ title: 'Builder', cell: (row) => row.house.builder.name }]}
        after={[
          { title: 'Reviewer', cell: (row) => row.reviewer?.name ?? 'Nobody yet' },
          { title: 'State', cell: (row) => <State review={row} /> },
        ]}
        shown={shown}
        none="Every open review"
        empty="No such review"
      />
      {ordering && (
        <OrderDialog
          title="Order a review"
          route={fileReviews.order}
          days={14}
          whyHelp="May be left out."
          onOrder={(body) => order.mutateAsync({ body })}
          onClose={() => setOrdering(false)}
        />
      )}
    </Page>
  );
}
