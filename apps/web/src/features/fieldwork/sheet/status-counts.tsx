import type { ItemVerdict } from '@countercheck/rules';
import { StatusMark } from '../../../components/marks/index.ts';

const order = ['pass', 'exempt', 'fail', 'waiting'] as const;

/** How many items stand how; with `some`, without those that there are none of. */
export function StatusCounts({
  verdicts,
  some = false,
}: {
  verdicts: readonly ItemVerdict[];
  some?: boolean;
}) {
  const counts = order.map(
    (status) => [status, verdicts.filter((each) => each.status === status).length] as const,
  );
  return (
    <span className="counts">
      {counts
        .filter(([, count]) => !some || count > 0)
        .map(([status, count]) => (
          <span key={status}>
            <StatusMark status={status} size="s" /> {count}
          </span>
        ))}
    </span>
  );
}
