const shown = new Intl.DateTimeFormat('en-US', { dateStyle: 'medium', timeStyle: 'short' });

/** An instant on the clock of the device: the holder of a link has no company clock. */
export const showHere = (instant: string): string => shown.format(new Date(instant));
