import type { ItemVerdict } from '@countercheck/rules';
import { Tag } from './tag.tsx';
import './marks.css';

type Close = Partial<Pick<ItemVerdict, 'closeToLimit' | 'closeWords'>>;

/** A pass nearer to its limit than its uncertainty; with words it also says the chance that it truly fails. */
export function CloseMark({ verdict, words = false }: { verdict: Close; words?: boolean }) {
  // A verdict sealed by an earlier version says nothing of it.
  if (!verdict.closeToLimit) return null;
  return (
    <span className="close-mark">
      <Tag tone="brass">Close to the limit</Tag>
      {words && verdict.closeWords && <span>{verdict.closeWords}</span>}
    </span>
  );
}
