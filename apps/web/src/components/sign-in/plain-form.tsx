import type { ReactNode } from 'react';
import { inWords } from '../../lib/problem.ts';
import type { usePlainForm } from './use-plain-form.ts';

interface PlainFormProps {
  of: Pick<ReturnType<typeof usePlainForm>, 'problem' | 'sending' | 'onSubmit'>;
  action: string;
  children: ReactNode;
}

/** Plain fields with their problem and their button. */
export function PlainForm({ of, action, children }: PlainFormProps) {
  const words = of.problem === null ? null : inWords(of.problem);
  return (
    <form onSubmit={of.onSubmit} noValidate className="plain-form">
      {children}
      {words && (
        <div className="plain-problem" role="alert" tabIndex={-1} data-form-problem>
          <strong>{words.title}</strong>
          {words.detail && <p>{words.detail}</p>}
          <p>{words.remedy}</p>
        </div>
      )}
      <button type="submit" className="plain-button" disabled={of.sending}>
        {of.sending ? 'One moment…' : action}
      </button>
    </form>
  );
}
