import {
  fileReviews,
  review as releaseReview,
  type FileReview,
  type WholeFile,
} from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Tag } from '../../../components/marks/index.ts';
import { DateText, Moment, Page, Panel } from '../../../components/page/index.ts';
import { Asked } from '../../../components/states/index.ts';
import { useParam } from '../../../lib/page-route.ts';
import { useRoute } from '../../../lib/query.ts';
import { sourceWords } from '../../../lib/words/quality.ts';
import { Happened, Signatures } from '../../review/past.tsx';
import '../../review/review.css';
import { FindingCard } from '../finding-card.tsx';
import { Desk } from './desk.tsx';
import { ReviewActions } from './review-actions.tsx';
import './review.css';

/** A file under review: every reading and every line of the checklist, one after the other, by keyboard. */
export default function ReviewPage() {
  const query = useRoute(fileReviews.show, { params: { id: useParam('id') } });
  return (
    <Asked query={query} what="Computing the file again">
      {(found) => <WithFile review={found} />}
    </Asked>
  );
}

function WithFile({ review }: { review: FileReview }) {
  const query = useRoute(releaseReview.file, { params: { id: review.house.id } });
  const { house, state, outcome } = review;
  return (
    <Page
      title={house.address}
      back={{ to: '/file-reviews', label: 'File reviews' }}
      lead={
        <>
          <span>
            {house.community}, lot {house.lot} · {house.builder.name}
          </span>
          <span>Measured by {review.rater.name}</span>
          <span>
            {sourceWords[review.source]}, due <DateText date={review.dueOn} />{' '}
            {review.overdue && <Tag tone="bad">Overdue</Tag>}
          </span>
          <span>{review.reviewer ? `Reviewer: ${review.reviewer.name}` : 'Nobody has taken it'}</span>
          {state !== 'open' && outcome && (
            <Tag tone={outcome === 'clean' ? 'good' : 'bad'}>
              {outcome === 'clean' ? 'Clean' : 'Findings'}
            </Tag>
          )}
          <Link to={`/review/${house.id}`}>The whole file</Link>
        </>
      }
    >
      {review.reason && <p>Why it was ordered: {review.reason}</p>}
      {review.note && <p>Note of the reviewer: {review.note}</p>}
      <Asked query={query} what="Reading the file">
        {(file) => <Reviewed review={review} file={file} />}
      </Asked>
    </Page>
  );
}

function Reviewed({ review, file }: { review: FileReview; file: WholeFile }) {
  const { findings, automatic, state, mine, ownWork } = review;
  const coming = automatic.filter(({ text }) => !findings.some((each) => each.text === text));
  return (
    <>
      {ownWork && (
        <p role="note">
          <Tag tone="brass">Your own work</Tag> You measured in this house; somebody else reviews the file.
        </p>
      )}
      <ReviewActions review={review} />
      <Desk key={`${review.id}/${state}/${String(mine)}`} review={review} file={file} />
      <Panel title={`Findings (${findings.filter((each) => each.state !== 'struck').length})`}>
        <div className="stack">
          {coming.length > 0 && (
            <p className="soft">
              Computed again, {coming.length === 1 ? 'one figure comes' : `${coming.length} figures come`} out
              differently; each becomes a finding when the review is taken:{' '}
              {coming.map(({ text }) => text).join(' ')}
            </p>
          )}
          {findings.length === 0 && <p className="soft">None.</p>}
          {findings.map((finding) => (
            <FindingCard key={finding.id} finding={finding} reviewing={mine && state === 'open'} />
          ))}
        </div>
      </Panel>
      <Signatures submissions={file.submissions} />
      <Happened visits={file.visits} events={file.events} />
      {review.doneAt && (
        <p className="soft">
          Finished <Moment at={review.doneAt} />
          {review.timesReopened > 0 && `, opened again ${review.timesReopened} times`}.
        </p>
      )}
    </>
  );
}
