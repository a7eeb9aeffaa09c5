import type { ReactNode } from 'react';
import './marks.css';

/** A short state in words beside a record. */
export function Tag({
  tone = 'plain',
  children,
}: {
  tone?: 'plain' | 'good' | 'bad' | 'brass';
  children: ReactNode;
}) {
  return <span className={`tag tag-${tone}`}>{children}</span>;
}
