import { review } from '@countercheck/contracts';
import { IconLock, IconLockOpen } from '@tabler/icons-react';
import { Link } from '@tanstack/react-router';
import { Caution } from '../../components/marks/index.ts';
import { FactList, Moment, Page, Panel } from '../../components/page/index.ts';
import { Asked } from '../../components/states/index.ts';
import { useParam } from '../../lib/page-route.ts';
import { useRoute } from '../../lib/query.ts';
import './review.css';

/** Checks a sealed file: its hash is computed again from the content that is kept. */
export default function SealedPage() {
  const query = useRoute(review.sealed, { params: { id: useParam('id') } });
  return (
    <Asked query={query} what="Computing the hash again">
      {(sealed) => (
        <Page
          width="reading"
          title={`Sealed file, revision ${sealed.revision}`}
          back={{ to: `/review/${sealed.houseId}`, label: 'File of the house' }}
        >
          {sealed.intact ? (
            <p className="intact">
              <IconLock aria-hidden="true" /> Intact: content, photos and record in the log are what was
              sealed.
            </p>
          ) : (
            <Caution weight="stop" title="Not intact">
              {sealed.problems.map((problem) => (
                <p key={problem}>
                  <IconLockOpen aria-hidden="true" size={18} /> {problem}
                </p>
              ))}
              <p>Do not rely on it; tell the administrator.</p>
            </Caution>
          )}
          <FactList
            facts={[
              ['Released', <Moment key="at" at={sealed.releasedAt} />],
              ['By', sealed.releasedBy],
              [
                'House',
                <Link key="house" to={`/review/${sealed.houseId}`}>
                  File of the house
                </Link>,
              ],
            ]}
          />
          <Panel title="Seal (SHA-256)">
            <dl className="hashes">
              <dt>Sealed with</dt>
              <dd className="code">{sealed.hash}</dd>
              <dt>Computed again now</dt>
              <dd className="code">{sealed.recomputedHash}</dd>
            </dl>
            <Link to={`/releases/${sealed.id}/proof`}>
              Check it in this browser, with its place in the log
            </Link>
          </Panel>
          <Panel title="Content">
            <details>
              <summary>Show what was sealed</summary>
              <pre className="code sealed-content" tabIndex={0} aria-label="Sealed content">
                {JSON.stringify(sealed.content, null, 2)}
              </pre>
            </details>
          </Panel>
        </Page>
      )}
    </Asked>
  );
}
