import type { Source } from '@countercheck/rules';
import { useId, useState, type ReactNode } from 'react';
import { showStored } from '../../lib/units/show-stored.ts';
import { useUnitSystem } from '../../lib/units/unit-system.ts';
import { SourceMark } from './source-mark.tsx';
import './working.css';

export interface WorkingStep {
  label: string;
  working: string;
  value: number;
  unit: string;
}

interface StepsProps {
  steps: readonly WorkingStep[];
}

/** Every line of a computation, so that it can be checked with a pocket calculator. */
export function Steps({ steps }: StepsProps) {
  const system = useUnitSystem();
  return (
    <ol className="working-steps">
      {steps.map((step, i) => (
        <li key={`${i}-${step.label}`}>
          <span>{step.label}</span>
          <code>
            {step.working} = {showStored(step.value, step.unit, 'us')}
          </code>
          {system === 'si' && <span className="soft">= {showStored(step.value, step.unit, 'si')}</span>}
        </li>
      ))}
    </ol>
  );
}

interface WorkingProps {
  /** what the number is */
  label: string;
  /** the number as it is shown */
  children: ReactNode;
  steps: readonly WorkingStep[];
  /** how sure it is, and whatever else must be known to trust it */
  notes?: readonly string[];
  /** where the method or the limit comes from */
  sources?: readonly Source[];
}

/** A number that opens its working: the lines that lead to it, how sure it is, and where the method comes from. */
export function Working({ label, children, steps, notes = [], sources = [] }: WorkingProps) {
  const [open, setOpen] = useState(false);
  const id = useId();
  return (
    <>
      <button
        type="button"
        className="working-open"
        aria-expanded={open}
        aria-controls={id}
        onClick={() => setOpen(!open)}
      >
        {children}
        <span className="visually-hidden">, working of {label}</span>
      </button>
      <div id={id} role="group" aria-label={`Working of ${label}`} className="working-panel" hidden={!open}>
        {steps.length > 0 ? <Steps steps={steps} /> : <p>Read directly; nothing was computed.</p>}
        {notes.map((note) => (
          <p key={note}>{note}</p>
        ))}
        {sources.map((source) => (
          <SourceMark key={source.citation} source={source} />
        ))}
      </div>
    </>
  );
}
