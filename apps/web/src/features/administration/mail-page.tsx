import { administration } from '@countercheck/contracts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Page } from '../../components/page/index.ts';
import { DataTable, SearchFilter, type Column } from '../../components/table/index.ts';
import type { AnswerOf } from '../../lib/client.ts';
import { useListSearch } from '../../lib/list-search.ts';
import { useRoute } from '../../lib/query.ts';

type MailRow = AnswerOf<typeof administration.mail>['items'][number];

/** Without a mail server nothing is on its way; the mail stays here. */
const columnsFor = (kept: boolean): Column<MailRow>[] => [
  { title: 'Written', cell: (row) => <Moment at={row.createdAt} /> },
  { title: 'To', cell: (row) => row.recipient },
  {
    title: 'Subject',
    head: true,
    cell: (row) => (
      <details>
        <summary>{row.subject}</summary>
        <p className="prewrap small" style={{ fontWeight: 400 }}>
          {row.body}
        </p>
      </details>
    ),
  },
  {
    title: 'State',
    cell: (row) =>
      row.sentAt ? (
        <>
          <Tag tone="good">Sent</Tag> <Moment at={row.sentAt} />
        </>
      ) : row.lastError ? (
        <>
          <Tag tone="bad">Not sent after {row.attempts} attempts</Tag> {row.lastError}
        </>
      ) : (
        <Tag>{kept ? 'Kept here' : 'Waiting'}</Tag>
      ),
  },
];

/** Mail the service wrote, to read here when none is sent or one did not arrive. */
export default function MailPage() {
  const { values, page } = useListSearch();
  const query = useRoute(
    administration.mail,
    { query: { page, search: values.search } },
    { keepPrevious: true },
  );
  const kept = query.data?.delivery === 'outbox-only';
  return (
    <Page
      title="Mail"
      lead={
        kept && 'No mail server is set up: mail is only kept here, and links in it can be handed on by hand.'
      }
    >
      <DataTable
        caption="Mail"
        columns={columnsFor(kept)}
        keyOf={(row) => row.id}
        query={query}
        filters={<SearchFilter label="Recipient or subject" />}
        empty="No mail found"
      />
    </Page>
  );
}
