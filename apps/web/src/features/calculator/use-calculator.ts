import { useLocation } from '@tanstack/react-router';
import { testDefinition } from '@countercheck/measurement';
import { useEffect, useMemo, useState } from 'react';
import { allConfirmed, hasEntries, problemsByPath, readForm } from '../../components/reading-form/index.ts';
import { today } from '../../lib/dates.ts';
import { useMe } from '../../lib/session.ts';
import { factsOf } from './made-up.ts';
import { isLink } from './is-link.ts';
import { begin, type CalculatorState } from './state.ts';

/** The page's inputs, those of a link when it was opened by one, and what they come to. */
export function useCalculator() {
  const hash = useLocation({ select: (location) => location.hash });
  const [state, setState] = useState<CalculatorState>(() => begin('envelope-leakage'));
  const [opened, setOpened] = useState<{ hash: string; good: boolean } | null>(null);
  useEffect(() => {
    // Other words after the # are places on the page, such as that of the skip link.
    if (!isLink(hash)) return;
    let gone = false;
    const open = async () => (await import('./share-link.ts')).unpackState(hash);
    void open().then((found) => {
      if (gone) return;
      if (found) setState(found);
      setOpened({ hash, good: found !== null });
    });
    return () => {
      gone = true;
    };
  }, [hash]);

  const day = today(useMe().company.timezone);
  const test = testDefinition(state.test);
  const instrument = useMemo(() => factsOf(state.instrument, day), [state.instrument, day]);
  const read = useMemo(() => readForm(test, state.form), [test, state.form]);
  // A link opens with whatever was ticked; the result can be looked at before everything is.
  const raw = useMemo(() => allConfirmed(test, read.raw), [test, read]);
  const outcome = useMemo(() => test.compute(raw, instrument), [test, raw, instrument]);
  const problems = problemsByPath(outcome.ok ? [] : outcome.problems, read.unreadable, false);
  const reading = useMemo(() => ({ raw, instrument, day }), [raw, instrument, day]);
  return {
    state,
    change: (changes: Partial<CalculatorState>) => setState((now) => ({ ...now, ...changes })),
    replace: setState,
    test,
    instrument,
    reading,
    outcome,
    problems,
    touched: hasEntries(state.form),
    /** the address carries a link that cannot be read */
    badLink: opened?.hash === hash && !opened.good,
    /** changes with each link that was opened, so that the fields begin anew */
    openedHash: opened?.good ? opened.hash : '',
  };
}
