import { Button } from '@mantine/core';
import { IconAlertTriangle, IconRefresh } from '@tabler/icons-react';
import type { ReactNode } from 'react';
import { inWords } from '../../lib/problem.ts';
import './states.css';

export function Loading({ what = 'Loading' }: { what?: string }) {
  return (
    <div className="loading" role="status">
      <span className="loading-scale" aria-hidden="true" />
      {what}…
    </div>
  );
}

export function Empty({
  title,
  children,
  action,
}: {
  title: string;
  children?: ReactNode;
  action?: ReactNode;
}) {
  return (
    <div className="empty">
      <p className="empty-title">{title}</p>
      {children && <div className="empty-text">{children}</div>}
      {action}
    </div>
  );
}

interface ProblemProps {
  error: unknown;
  retry?: (() => void) | undefined;
  children?: ReactNode;
}

/** What went wrong, what to do about it, and the number to tell the administrator. */
export function Problem({ error, retry, children }: ProblemProps) {
  const words = inWords(error);
  return (
    <div className="problem" role="alert" tabIndex={-1} data-form-problem>
      <IconAlertTriangle aria-hidden="true" size={20} />
      <div>
        <p className="problem-title">{words.title}</p>
        {words.detail && <p>{words.detail}</p>}
        <p>{words.remedy}</p>
        {children}
        {words.requestId && <p className="problem-id">Request {words.requestId}</p>}
        {retry && (
          <Button size="xs" variant="default" leftSection={<IconRefresh size={14} />} onClick={retry}>
            Try again
          </Button>
        )}
      </div>
    </div>
  );
}
