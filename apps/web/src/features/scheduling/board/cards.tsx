import { Button } from '@mantine/core';
import { IconAlertTriangle } from '@tabler/icons-react';
import type { BoardVisit, VisitRequest } from '@countercheck/contracts';
import { useDraggable } from '@dnd-kit/core';
import type { KeyboardEvent } from 'react';
import { Tag } from '../../../components/marks/index.ts';
import { DueTag } from '../../../components/readiness/due-tag.tsx';
import { showDate, showTime } from '../../../lib/dates.ts';
import { useMe } from '../../../lib/session.ts';
import { deadlineWords, durationWords, readinessShort } from '../../../lib/words/scheduling.ts';
import { visitKindWords } from '../../../lib/words/work.ts';
import { movable } from './place.ts';

interface RequestCardProps {
  request: VisitRequest;
  keeper: boolean;
  onPlace: () => void;
}

/** A request that waits; it is dragged to a rater's day, or placed by its button. */
export function RequestCard({ request, keeper, onPlace }: RequestCardProps) {
  const { setNodeRef, listeners, isDragging } = useDraggable({
    id: `request ${request.id}`,
    data: { request },
    disabled: !keeper,
  });
  const { house, kind, minutes, earliestOn, deadlineOn, deadlineWhy, openFrom, openTo, readiness } = request;
  const wanting = readiness.points.some(({ ready }) => ready === false);
  return (
    <li ref={setNodeRef} className="board-card" data-dragging={isDragging} {...listeners}>
      <strong>{house.address}</strong>
      <span className="small">
        {visitKindWords[kind]}, {durationWords(minutes)}, {house.builder.name}
      </span>
      <span className="small">
        From {showDate(earliestOn)}
        {deadlineOn && `, by ${showDate(deadlineOn)}`}
        {openFrom && `, ${openFrom} – ${openTo}`}
      </span>
      <span className="board-tags">
        <DueTag request={request} />
        {deadlineOn && <Tag tone="brass">{deadlineWords[deadlineWhy ?? 'agreed']}</Tag>}
        <Tag tone={readiness.ready ? 'good' : wanting ? 'bad' : 'plain'}>{readinessShort(readiness)}</Tag>
      </span>
      {keeper && (
        <Button size="compact-sm" variant="default" aria-label={`Place ${house.address}`} onClick={onPlace}>
          Place
        </Button>
      )}
    </li>
  );
}

export type Step = { days: number; raters: number };
const steps: Record<string, Step> = {
  ArrowLeft: { days: -1, raters: 0 },
  ArrowRight: { days: 1, raters: 0 },
  ArrowUp: { days: 0, raters: -1 },
  ArrowDown: { days: 0, raters: 1 },
};

interface VisitBlockProps {
  entry: BoardVisit;
  keeper: boolean;
  onOpen: () => void;
  onStep?: (step: Step) => void;
}

/** A visit on the board: opened by a press, dragged, or moved by the arrow keys. */
export function VisitBlock({ entry, keeper, onOpen, onStep }: VisitBlockProps) {
  const zone = useMe().company.timezone;
  const { visit, warnings } = entry;
  const free = keeper && movable(entry);
  const { setNodeRef, listeners, isDragging } = useDraggable({
    id: `visit ${visit.id}`,
    data: { visit },
    disabled: !free,
  });
  const onKeyDown = (event: KeyboardEvent) => {
    const step = steps[event.key];
    if (!step || !free || !onStep) return;
    event.preventDefault();
    onStep(step);
  };
  return (
    <button
      type="button"
      ref={setNodeRef}
      className={`board-visit board-${visit.state}`}
      data-dragging={isDragging}
      onClick={onOpen}
      {...listeners}
      onKeyDown={onKeyDown}
      {...(free ? { 'aria-describedby': 'board-keys' } : {})}
    >
      <span className="board-time">
        <span className="figure">{showTime(visit.startsAt, zone)} –</span>{' '}
        <span className="figure">{showTime(visit.endsAt, zone)}</span>
      </span>
      <strong>{visit.house.address}</strong>
      <span className="small">{visitKindWords[visit.kind]}</span>
      {warnings.length > 0 && (
        <span className="board-doubt small">
          <IconAlertTriangle aria-hidden="true" size={14} />
          {warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`}
        </span>
      )}
    </button>
  );
}
