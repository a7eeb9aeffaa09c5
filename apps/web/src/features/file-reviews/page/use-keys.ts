import { useEffect, useRef } from 'react';

export interface Shortcut {
  /** the letter, as it is typed without any other key */
  key: string;
  does: string;
  run: () => void;
}

const typing = 'input, textarea, select, [contenteditable=""], [contenteditable="true"]';

/** Whether a key press is meant for something else: typing, a dialog, the browser or a reader. */
function meantElsewhere(event: KeyboardEvent): boolean {
  if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.isComposing)
    return true;
  const at = event.target;
  return at instanceof Element && (at.closest(typing) !== null || at.closest('[role="dialog"]') !== null);
}

/**
 * Single letters that do something while nobody types. They can be switched off (WCAG 2.1.4), since a voice or a
 * reader's own keys may say them by accident.
 */
export function useKeys(shortcuts: readonly Shortcut[], on: boolean): void {
  const known = useRef(shortcuts);
  useEffect(() => {
    known.current = shortcuts;
  });
  useEffect(() => {
    if (!on) return;
    const pressed = (event: KeyboardEvent) => {
      if (event.repeat || meantElsewhere(event) || document.querySelector('[role="dialog"]')) return;
      const shortcut = known.current.find(({ key }) => key === event.key.toLowerCase());
      if (!shortcut) return;
      event.preventDefault();
      shortcut.run();
    };
    document.addEventListener('keydown', pressed);
    return () => document.removeEventListener('keydown', pressed);
  }, [on]);
}
