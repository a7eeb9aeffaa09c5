import type { Visit } from '@countercheck/contracts';
import { Link } from '@tanstack/react-router';
import { StatusMark, Tag } from '../../../components/marks/index.ts';
import { showTime } from '../../../lib/dates.ts';
import { useMe } from '../../../lib/session.ts';
import { useSheet } from '../data/sheet.ts';
import { visitTitles, visitStateWords } from '../../../lib/words/work.ts';

function Waiting({ visitId }: { visitId: string }) {
  const { data, isError } = useSheet(visitId);
  if (isError) return <span className="soft">What waits could not be loaded.</span>;
  if (!data) return <span className="soft">Counting what waits…</span>;
  const count = (status: string) => data.verdicts.filter((each) => each.status === status).length;
  return (
    <>
      {data.stopWork.length > 0 && <Tag tone="bad">Stop work</Tag>}
      <span>
        <StatusMark status="waiting" size="s" /> {count('waiting')}
      </span>
      {count('fail') > 0 && (
        <span>
          <StatusMark status="fail" size="s" /> {count('fail')}
        </span>
      )}
    </>
  );
}

/** One house of the day: when, where, what for, and what waits there. */
export function VisitCard({ visit }: { visit: Visit }) {
  const zone = useMe().company.timezone;
  const open = visit.state === 'booked' || visit.state === 'in_progress';
  return (
    <li className="visit-card">
      <p className="visit-time visit-span">
        {showTime(visit.startsAt, zone)}–{showTime(visit.endsAt, zone)}
      </p>
      <div>
        <h2>
          <Link to={`/visits/${visit.id}`}>{visit.house.address}</Link>
        </h2>
        <p className="soft">
          {visit.house.community}, lot {visit.house.lot} · {visit.house.builder.name}
        </p>
        <p className="visit-state">
          <Tag>{visitTitles[visit.kind]}</Tag>
          {visit.state !== 'booked' && (
            <Tag tone={visit.state === 'submitted' ? 'good' : 'brass'}>{visitStateWords[visit.state]}</Tag>
          )}
          {open && <Waiting visitId={visit.id} />}
        </p>
        {visit.note && <p>{visit.note}</p>}
        {visit.cause && <p className="soft">{visit.cause}</p>}
      </div>
    </li>
  );
}
