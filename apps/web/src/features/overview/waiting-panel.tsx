import type { Role, service } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { Panel } from '../../components/page/index.ts';
import type { AnswerOf } from '../../lib/client.ts';
import { useMe } from '../../lib/session.ts';
import './overview.css';

type Counts = AnswerOf<typeof service.overview>;
interface Waiting {
  count: number;
  one: string;
  many: string;
  to: string;
  search?: Record<string, string>;
}

function waitingFor(role: Role, c: Counts): Waiting[] {
  const keeper = role === 'office' || role === 'administrator';
  const visits = { count: c.visitsToday, one: 'visit today', many: 'visits today' };
  const failed = { count: c.openFailedItems, one: 'failed item open', many: 'failed items open' };
  const due = {
    count: c.instrumentsDue,
    one: 'instrument out of calibration or due soon',
    many: 'instruments out of calibration or due soon',
    to: '/instruments',
  };
  const review = { count: c.waitingForReview, one: 'file waits for review', many: 'files wait for review' };
  if (role === 'rater') return [{ ...visits, to: '/day' }, due];
  if (role === 'builder') return [{ ...failed, to: '/my-houses' }];
  if (role === 'quality') return [{ ...review, to: '/review' }, { ...failed, to: '/failed-items' }, due];
  if (!keeper) return [];
  return [
    {
      count: c.reinspectionsAsked,
      one: 'reinspection to book',
      many: 'reinspections to book',
      to: '/reinspections',
      search: { state: 'asked' },
    },
    { ...visits, to: '/visits' },
    { ...failed, to: '/failed-items', search: { state: 'not_closed' } },
    { ...review, to: '/houses', search: { stage: 'in_review' } },
    due,
  ];
}

/** What waits for the person looking, as large figures that lead to the work. */
export function WaitingPanel({ counts }: { counts: Counts }) {
  const { role } = useMe();
  return (
    <Panel title="Waiting for you" flush>
      <ul className="waiting">
        {waitingFor(role, counts).map(({ count, one, many, to, search }) => (
          <li key={to + one}>
            <Link to={to} search={search ?? {}} className={count === 0 ? 'none' : ''}>
              <strong>{count}</strong>
              <span>{count === 1 ? one : many}</span>
            </Link>
          </li>
        ))}
      </ul>
    </Panel>
  );
}
