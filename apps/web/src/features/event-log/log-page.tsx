import { Button } from '@mantine/core';
import { IconDownload, IconPrinter } from '@tabler/icons-react';
import { eventLog, type RecordedHead } from '@countercheck/contracts';
import { DateText, FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked, Empty } from '../../components/states/index.ts';
import { RowsTable, type Column } from '../../components/table/index.ts';
import { useRoute } from '../../lib/query.ts';
import { WhatItShows } from './what-it-shows.tsx';
import { jsonUrl } from './save-file.ts';
import './event-log.css';

const columns: Column<RecordedHead>[] = [
  { title: 'Day', head: true, cell: ({ day }) => <DateText date={day} /> },
  { title: 'Record', figure: true, cell: ({ sequence }) => sequence.toLocaleString('en') },
  { title: 'Hash', cell: ({ hash }) => <span className="code hash">{hash}</span> },
  { title: 'Sent to', cell: ({ recipient }) => recipient ?? 'nobody' },
];

/** The head of the chained log, to be kept elsewhere, and the whole log to be checked elsewhere. */
export default function LogPage() {
  const query = useRoute(eventLog.head, {});
  return (
    <Page
      title="Chained log"
      width="reading"
      lead="Every event is chained to the one before it, so that a later change shows."
    >
      <Asked query={query}>
        {({ head, recipient, recorded }) => (
          <>
            <Panel
              title="Head of the log"
              actions={
                <Button
                  component="a"
                  href={jsonUrl(head)}
                  download={`log-head-${head.sequence}.json`}
                  leftSection={<IconDownload size={16} aria-hidden="true" />}
                >
                  Save the head
                </Button>
              }
            >
              <FactList
                facts={[
                  ['Newest record', head.sequence.toLocaleString('en')],
                  ['Read', <Moment key="at" at={head.at} />],
                  [
                    'Sent once a day to',
                    recipient ?? 'nobody; the administrator can name somebody under Options',
                  ],
                ]}
              />
              <p className="soft small hash-title">Hash (SHA-256)</p>
              <p className="code hash">{head.hash}</p>
              <div className="log-actions">
                <Button
                  variant="default"
                  leftSection={<IconPrinter size={16} aria-hidden="true" />}
                  onClick={() => window.print()}
                >
                  Print
                </Button>
                <Button
                  component="a"
                  variant="default"
                  href="/api/event-log/records"
                  download
                  leftSection={<IconDownload size={16} aria-hidden="true" />}
                >
                  Save the whole log
                </Button>
              </div>
            </Panel>
            <Panel title="Heads of the last days" flush={recorded.length > 0}>
              {recorded.length > 0 ? (
                <RowsTable
                  caption="Heads recorded once a day"
                  columns={columns}
                  rows={recorded}
                  keyOf={({ day }) => day}
                />
              ) : (
                <Empty title="None recorded yet; the first follows within the hour" />
              )}
            </Panel>
            <WhatItShows />
          </>
        )}
      </Asked>
    </Page>
  );
}
