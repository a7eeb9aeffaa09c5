import { useEffect, type ReactNode } from 'react';
import './entrance.css';

interface FrameProps {
  title: string;
  lead?: ReactNode;
  children: ReactNode;
  foot?: ReactNode;
}

/** The ground that the pages before the session share. */
export function EntranceFrame({ title, lead, children, foot }: FrameProps) {
  useEffect(() => {
    document.title = `${title} – Countercheck`;
  }, [title]);
  return (
    <main className="entrance">
      <div className="entrance-dial" aria-hidden="true">
        <svg viewBox="0 0 240 132">
          <path d="M20 120a100 100 0 0 1 200 0" className="dial-arc" pathLength="100" />
          <path d="M20 120a100 100 0 0 1 200 0" className="dial-ticks" pathLength="100" />
          <path d="M120 120 176 44" className="dial-pointer" />
          <circle cx="120" cy="120" r="6" className="dial-hub" />
        </svg>
      </div>
      <div className="entrance-card">
        <p className="entrance-name">Countercheck</p>
        <h1>{title}</h1>
        {lead && <div className="entrance-lead">{lead}</div>}
        {children}
        {foot && <div className="entrance-foot">{foot}</div>}
      </div>
    </main>
  );
}
