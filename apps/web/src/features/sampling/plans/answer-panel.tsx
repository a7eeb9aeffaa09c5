import type { ReactNode } from 'react';
import { FactList, Panel, type Fact } from '../../../components/page/index.ts';
import type { attempt } from './number-field.tsx';

interface AnswerPanelProps<T> {
  title: string;
  /** what it is worked out from */
  fields: ReactNode;
  answer: ReturnType<typeof attempt<T>>;
  facts: (value: T) => Fact[];
  /** how it is worked out, and where that comes from */
  children: ReactNode;
}

/** A question to the theory of sampling: what is asked, and what comes out or why nothing does. */
export function AnswerPanel<T>({ title, fields, answer, facts, children }: AnswerPanelProps<T>) {
  return (
    <Panel title={title}>
      <div className="stack">
        <div className="fields">{fields}</div>
        <div role="status">
          {'problem' in answer ? <p>{answer.problem}</p> : <FactList facts={facts(answer.value)} />}
        </div>
        <p className="soft small">{children}</p>
      </div>
    </Panel>
  );
}
