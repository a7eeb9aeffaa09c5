import { useEffect } from 'react';

const lost = () => document.activeElement === null || document.activeElement === document.body;

/** Gives an element the focus when what had it is gone from the page; somebody who went elsewhere stays there. */
export function catchFocus(element: HTMLElement | null): void {
  if (lost()) element?.focus({ preventScroll: true });
}

/** Once a dialog is closed, the focus goes back to what opened it, or to the page where that is gone. */
export function useFocusBack(opened: boolean): void {
  useEffect(() => {
    if (!opened) return;
    const opener = document.activeElement;
    const back = () =>
      catchFocus(
        opener instanceof HTMLElement && opener !== document.body && opener.isConnected
          ? opener
          : document.getElementById('content'),
      );
    // At once, and again when a dialog that fades has gone.
    return () => [10, 400].forEach((ms) => setTimeout(back, ms));
  }, [opened]);
}
