import { useEffect, useRef, type ReactNode } from 'react';
import { Link } from '@tanstack/react-router';
import './page.css';

interface PageProps {
  title: string;
  /** what stands over the title: where this page belongs */
  back?: { to: string; label: string };
  /** one line under the title */
  lead?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
  /** `reading` keeps lines short, `sheet` is for gloves, `desk` uses the width */
  width?: 'desk' | 'reading' | 'sheet';
}

/** A page's heading and body. After a change of page the heading takes the focus, so that it is read out. */
export function Page({ title, back, lead, actions, children, width = 'desk' }: PageProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} – Countercheck`;
  }, [title]);
  useEffect(() => {
    // On the first load the browser has put the focus where it belongs already.
    if (document.body.dataset.navigated) heading.current?.focus({ preventScroll: true });
  }, []);
  return (
    <div className={`page page-${width}`}>
      <header className="page-head">
        <div className="page-words">
          {back && (
            <Link to={back.to} className="page-back">
              ← {back.label}
            </Link>
          )}
          <h1 ref={heading} tabIndex={-1}>
            {title}
          </h1>
          {lead && <div className="page-lead">{lead}</div>}
        </div>
        {actions && <div className="page-actions">{actions}</div>}
      </header>
      {children}
    </div>
  );
}

interface PanelProps {
  title: string;
  actions?: ReactNode;
  children: ReactNode;
  /** without padding, for a table that fills it */
  flush?: boolean;
}

/** A titled part of a page. */
export function Panel({ title, actions, children, flush = false }: PanelProps) {
  return (
    <section className="panel" aria-label={title}>
      <header className="panel-head">
        <h2>{title}</h2>
        {actions && <div className="panel-actions">{actions}</div>}
      </header>
      <div className={flush ? 'panel-flush' : 'panel-body'}>{children}</div>
    </section>
  );
}

export type Fact = [label: string, value: ReactNode];

/** Label and value pairs, as on a form. */
export function FactList({ facts }: { facts: Fact[] }) {
  return (
    <dl className="facts">
      {facts.map(([label, value]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value === null || value === '' ? '–' : value}</dd>
        </div>
      ))}
    </dl>
  );
}
