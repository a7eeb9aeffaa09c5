import type { ItemVerdict } from '@countercheck/rules';
import { lazy, Suspense, useState } from 'react';
import { CloseMark, StatusMark, Tag } from '../../../components/marks/index.ts';
import { Loading } from '../../../components/states/index.ts';
import { whenIdle } from '../../../lib/later.ts';
import { useVerdictIn } from '../../../lib/units/verdict-in.ts';
import { verdictKey } from './verdicts.ts';

const bringBody = () => import('./item-body.tsx');
const ItemBody = lazy(bringBody);

/** Brings what an opened item needs, so that nobody waits for it. */
export const prepareItems = () => whenIdle(() => void bringBody().catch(() => undefined));

interface Props {
  verdict: ItemVerdict;
  startsOpen: boolean;
  onToggle(open: boolean): void;
}

/** One item of the sheet, closed to a line and opened to its tests. */
export function ItemCard({ verdict: kept, startsOpen, onToggle }: Props) {
  const verdict = useVerdictIn(kept);
  const [open, setOpen] = useState(startsOpen);
  return (
    <details
      id={verdictKey(verdict)}
      className={`item item-${verdict.status}`}
      open={open}
      onToggle={(event) => {
        if (event.target !== event.currentTarget) return;
        setOpen(event.currentTarget.open);
        onToggle(event.currentTarget.open);
      }}
    >
      <summary>
        <span className="item-name opens">
          <strong>{verdict.title}</strong> <span className="soft">{verdict.subjectLabel}</span>
        </span>
        <span className="item-marks">
          {verdict.safety && <Tag tone="brass">Safety</Tag>}
          <CloseMark verdict={verdict} />
          <StatusMark status={verdict.status} />
        </span>
        <span className="item-reason">
          {verdict.reason}
          {verdict.closeToLimit && verdict.closeWords && ` ${verdict.closeWords}`}
        </span>
      </summary>
      {open && (
        <Suspense fallback={<Loading what="Loading the tests" />}>
          <ItemBody verdict={verdict} />
        </Suspense>
      )}
    </details>
  );
}
