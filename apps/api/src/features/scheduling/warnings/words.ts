import { format, parseISO } from 'date-fns';

/** A time of day, HH:MM, as people here write it: 8:00 AM. */
export const clockWords = (clock: string): string => format(parseISO(`2000-01-01T${clock}:00`), 'h:mm a');

/** A calendar date, yyyy-mm-dd, as people here write it: Tue, Dec 1. */
export const dayWords = (date: string): string => format(parseISO(date), 'EEE, MMM d');
