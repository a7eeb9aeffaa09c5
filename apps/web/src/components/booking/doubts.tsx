import { scheduling, type Visit } from '@countercheck/contracts';
import { useRoute } from '../../lib/query.ts';
import { useMe, useRole } from '../../lib/session.ts';
import { Caution } from '../marks/index.ts';
import { instantsOf } from './times.ts';

interface DoubtsProps {
  houseId: string | null;
  kind: Visit['kind'];
  raterId: string | null;
  day: string;
  start: string;
  end: string;
  /** the request that would be answered, or the visit that would be moved */
  requestId?: string;
  visitId?: string;
}

/** Asks the server what is doubtful about the place chosen so far, and says it before anything is booked. */
export function Doubts({ houseId, kind, raterId, day, start, end, requestId, visitId }: DoubtsProps) {
  const zone = useMe().company.timezone;
  const asks = useRole('office', 'administrator');
  const { startsAt, endsAt } = instantsOf({ day, start, end }, zone);
  const complete = Boolean(asks && houseId && raterId && startsAt && endsAt && startsAt < endsAt);
  const query = useRoute(
    scheduling.tryVisit,
    {
      query: {
        ...{ houseId: houseId ?? '', kind, raterId: raterId ?? '', startsAt, endsAt },
        ...{ ...(requestId ? { requestId } : {}), ...(visitId ? { visitId } : {}) },
      },
    },
    { enabled: complete, keepPrevious: true },
  );
  if (!complete) return null;
  return (
    <div role="status">
      {query.data?.length === 0 && <p>No warnings.</p>}
      {query.data && query.data.length > 0 && (
        <Caution title="Check before you go on">
          <ul>
            {query.data.map(({ code, text }) => (
              <li key={`${code} ${text}`}>{text}</li>
            ))}
          </ul>
        </Caution>
      )}
    </div>
  );
}
