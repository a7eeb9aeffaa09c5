import { houses, review, type WholeFile } from '@countercheck/contracts';
import { Tag } from '../../components/marks/index.ts';
import { Moment, Panel } from '../../components/page/index.ts';
import { SendBack } from '../../components/returned-file/index.ts';
import { RowsTable } from '../../components/table/index.ts';
import { useAction } from '../../lib/query.ts';
import { severityWords, visitKindWords, visitStateWords } from '../../lib/words/work.ts';
import { AnswerForm } from './answer-form.tsx';

interface EarlierProps {
  file: Pick<WholeFile, 'reviews' | 'house'>;
  /** the office answers the findings of a file that is returned now */
  mayAnswer: boolean;
}

/** Earlier reviews with their findings and the answers to them. */
export function EarlierReviews({ file, mayAnswer }: EarlierProps) {
  const { reviews, house } = file;
  const sendBack = useAction(review.sendBack, {
    invalidates: [review.file, review.queue, houses.list, houses.show],
  });
  const answering = mayAnswer && house.stage === 'returned';
  const newest = reviews.toSorted((a, b) => b.at.localeCompare(a.at))[0];
  if (reviews.length === 0) return null;
  return (
    <Panel title="Earlier reviews">
      <div className="stack">
        <ul className="plain-list stack">
          {reviews.map((each) => (
            <li key={each.id}>
              <p>
                <strong>{each.outcome === 'returned' ? 'Returned' : 'Released'}</strong>, revision{' '}
                {each.revision}, {each.reviewer}, <Moment at={each.at} />
                {each.note && `: ${each.note}`}
              </p>
              <ul className="holding">
                {each.findings.map((finding) => (
                  <li key={finding.id}>
                    <Tag tone={finding.severity === 'major' ? 'bad' : 'brass'}>
                      {severityWords[finding.severity]}
                    </Tag>{' '}
                    {finding.text}
                    {answering && each === newest ? (
                      <AnswerForm finding={finding} />
                    ) : finding.answer ? (
                      <p className="soft">
                        Answer (<Moment at={finding.answeredAt} />
                        ): {finding.answer}
                      </p>
                    ) : (
                      <p className="soft">Not answered.</p>
                    )}
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
        {answering && (
          <SendBack
            size="sm"
            open={newest?.findings.filter(({ answer }) => answer === null).length ?? 0}
            send={(note) => sendBack.mutateAsync({ params: { id: house.id }, body: { note } })}
          />
        )}
      </div>
    </Panel>
  );
}

/** Visits, and everything else that happened to the file. */
export function Happened({ visits, events }: Pick<WholeFile, 'visits' | 'events'>) {
  return (
    <>
      <Panel title="Visits" flush>
        <RowsTable
          caption="Visits"
          rows={visits}
          keyOf={({ id }) => id}
          columns={[
            { title: 'When', head: true, cell: (visit) => <Moment at={visit.startsAt} /> },
            { title: 'Kind', cell: (visit) => visitKindWords[visit.kind] },
            { title: 'Rater', cell: (visit) => visit.rater.name },
            { title: 'State', cell: (visit) => visitStateWords[visit.state] },
            { title: 'Note', cell: (visit) => visit.cause ?? visit.note ?? '–' },
          ]}
        />
      </Panel>
      <Panel title="Events" flush>
        <details className="events">
          <summary>Show all ({events.length})</summary>
          <RowsTable
            caption="Events"
            rows={events}
            keyOf={({ id }) => id}
            columns={[
              { title: 'When', cell: (event) => <Moment at={event.at} /> },
              { title: 'Who', cell: (event) => event.actorName },
              { title: 'What', head: true, cell: (event) => event.action },
              { title: 'Reason', cell: (event) => event.reason ?? '–' },
            ]}
          />
        </details>
      </Panel>
    </>
  );
}

/** The installer's signatures; the newest revision is the one compared with. */
export function Signatures({ submissions }: Pick<WholeFile, 'submissions'>) {
  return (
    <Panel title="Installer’s signatures" flush>
      <RowsTable
        caption="Installer’s signatures"
        rows={submissions}
        keyOf={({ id }) => id}
        columns={[
          { title: 'Revision', head: true, cell: ({ revision }) => revision },
          {
            title: 'Signed by',
            cell: ({ signedName, installer }) => `${signedName}, ${installer.companyName}`,
          },
          { title: 'Signed', cell: ({ signedAt }) => <Moment at={signedAt} /> },
          { title: 'Frozen', cell: ({ frozenAt }) => <Moment at={frozenAt} /> },
        ]}
      />
    </Panel>
  );
}
