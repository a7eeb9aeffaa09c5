import {
  IconCircleCheck,
  IconCircleDashed,
  IconCircleMinus,
  IconCircleX,
  IconShieldCheck,
} from '@tabler/icons-react';
import './marks.css';

const marks = {
  pass: { icon: IconCircleCheck, words: 'Pass' },
  fail: { icon: IconCircleX, words: 'Fail' },
  exempt: { icon: IconShieldCheck, words: 'Exempt' },
  'not-applicable': { icon: IconCircleMinus, words: 'Not applicable' },
  waiting: { icon: IconCircleDashed, words: 'Waiting' },
} as const;
export type MarkedStatus = keyof typeof marks;

/** A verdict's mark: shape and word say it, the colour only helps. */
export function StatusMark({ status, size = 'm' }: { status: MarkedStatus; size?: 's' | 'm' | 'l' }) {
  const { icon: Icon, words } = marks[status];
  return (
    <span className={`status-mark status-${status} status-${size}`}>
      <Icon aria-hidden="true" size={size === 'l' ? 22 : size === 'm' ? 18 : 15} />
      {words}
    </span>
  );
}
