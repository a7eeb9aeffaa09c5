import { Button } from '@mantine/core';
import type { BackgroundRun } from '@countercheck/contracts';
import { useId, type ReactNode } from 'react';
import { Tag } from '../marks/index.ts';
import { FactList, Moment, Panel } from '../page/index.ts';
import { Problem } from '../states/index.ts';
import { isAtWork, runStateTones, runStateWords } from './run-words.ts';
import './runs.css';

export function RunTag({ run }: { run: Pick<BackgroundRun, 'state'> }) {
  return <Tag tone={runStateTones[run.state]}>{runStateWords[run.state]}</Tag>;
}

const shown = (count: number) => count.toLocaleString('en-US');

/** How far a run is, as a bar and in words. */
export function RunBar({ run, what }: { run: BackgroundRun; what: string }) {
  const id = useId();
  const { done, total, cancelAsked, state } = run;
  const words =
    total === null
      ? state === 'waiting'
        ? 'It begins as soon as the one before it has ended.'
        : `Counting the ${what}…`
      : `${shown(done)} of ${shown(total)} ${what}, ${total === 0 ? 100 : Math.floor((100 * done) / total)} %`;
  return (
    <div className="run-bar">
      <span id={id} className="figure">
        {cancelAsked ? 'Stopping… ' : ''}
        {words}
      </span>
      {total === null ? (
        <progress aria-labelledby={id} />
      ) : (
        <progress aria-labelledby={id} max={Math.max(1, total)} value={done} />
      )}
    </div>
  );
}

const ends: Partial<Record<BackgroundRun['state'], string>> = {
  cancelled: 'It was cancelled; nothing that it had found is kept.',
  interrupted:
    'The service stopped while it was at work. Nothing was lost but the work itself; start it again.',
  failed: 'It came to a fault and kept nothing.',
};

interface RunPanelProps {
  run: BackgroundRun;
  /** what is counted, e.g. houses */
  what: string;
  onCancel: () => void;
  cancelling: boolean;
  error: unknown;
  /** further buttons once it has ended */
  children?: ReactNode;
}

/** Where a long piece of work stands; it can be cancelled as long as it goes on. */
export function RunPanel({ run, what, onCancel, cancelling, error, children }: RunPanelProps) {
  const atWork = isAtWork(run);
  return (
    <Panel
      title="Progress"
      actions={
        atWork ? (
          <Button
            size="xs"
            variant="default"
            loading={cancelling}
            disabled={run.cancelAsked}
            onClick={onCancel}
          >
            Cancel
          </Button>
        ) : (
          children
        )
      }
    >
      <div className="stack">
        <div role="status">
          <RunTag run={run} />
        </div>
        {atWork && <RunBar run={run} what={what} />}
        {ends[run.state] && (
          <p>
            {ends[run.state]} {run.problem}
          </p>
        )}
        {error !== null && <Problem error={error} />}
        <FactList
          facts={[
            ['Asked by', run.askedBy],
            ['Asked', <Moment at={run.askedAt} />],
            ['Begun', <Moment at={run.startedAt} />],
            ['Ended', <Moment at={run.endedAt} />],
          ]}
        />
      </div>
    </Panel>
  );
}
