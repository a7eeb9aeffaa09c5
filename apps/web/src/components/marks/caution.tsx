import { IconAlertOctagon, IconHandStop } from '@tabler/icons-react';
import type { ReactNode } from 'react';
import './marks.css';

interface CautionProps {
  title?: string;
  /** `stop` when people must act before anything else is done */
  weight?: 'care' | 'stop';
  children: ReactNode;
}

/** Something to mind before going on. */
export function Caution({ title, weight = 'care', children }: CautionProps) {
  const Icon = weight === 'stop' ? IconHandStop : IconAlertOctagon;
  return (
    <div className={`caution caution-${weight}`} role={weight === 'stop' ? 'alert' : 'note'}>
      <Icon aria-hidden="true" size={weight === 'stop' ? 28 : 20} />
      <div>
        {title && <p className="caution-title">{title}</p>}
        {children}
      </div>
    </div>
  );
}
