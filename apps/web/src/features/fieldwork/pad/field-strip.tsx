import { VisuallyHidden } from '@mantine/core';
import { IconCheck, IconPlus } from '@tabler/icons-react';
import type { TestDefinition } from '@countercheck/measurement';
import { useEffect, useRef } from 'react';
import type { Draft } from '../entry/draft.ts';
import { isFilled, stepLabel, type Step } from '../work/steps.ts';

interface Props {
  test: TestDefinition;
  draft: Draft;
  steps: readonly Step[];
  /** the key of the step that is asked now; null at the end */
  at: string | null;
  onGo(key: string): void;
  /** adds a row; null where there can be no more */
  onMore: (() => void) | null;
}

/** Every field of the test in a line, to go to any of them, forward or back. */
export function FieldStrip({ test, draft, steps, at, onGo, onMore }: Props) {
  const now = useRef<HTMLButtonElement>(null);
  useEffect(() => now.current?.scrollIntoView({ block: 'nearest', inline: 'center' }), [at]);
  return (
    <nav aria-label="Fields of this test">
      <ol className="pad-strip">
        {steps.map((step) => {
          const row = step.row === null || step.kind === 'name' ? null : draft.rows[step.row];
          const current = step.key === at;
          return (
            <li key={step.key}>
              <button
                ref={current ? now : null}
                type="button"
                data-field={step.key}
                aria-current={current ? 'step' : undefined}
                onClick={() => onGo(step.key)}
              >
                {isFilled(step, test, draft) && (
                  <>
                    <IconCheck size={16} aria-hidden="true" />
                    <VisuallyHidden>Entered: </VisuallyHidden>
                  </>
                )}
                {row ? `${row.label}: ` : ''}
                {stepLabel(step, test)}
              </button>
            </li>
          );
        })}
        {onMore && (
          <li>
            <button type="button" onClick={onMore}>
              <IconPlus size={16} aria-hidden="true" />
              Add {test.rows?.rowLabel.toLowerCase()}
            </button>
          </li>
        )}
      </ol>
    </nav>
  );
}
