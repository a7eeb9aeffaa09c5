import { showClock } from '../../lib/dates.ts';

const short = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;

interface Hours {
  /** 1 = Monday */
  weekday: number;
  from: string;
  to: string;
}

/** Working hours in words, days that follow each other with the same hours together: Mon–Fri 8:00 AM–5:00 PM. */
export function hoursWords(hours: readonly Hours[]): string {
  const runs: (Hours & { last: number })[] = [];
  for (const each of hours.toSorted((a, b) => a.weekday - b.weekday)) {
    const run = runs.at(-1);
    if (run && run.last + 1 === each.weekday && run.from === each.from && run.to === each.to)
      run.last = each.weekday;
    else runs.push({ ...each, last: each.weekday });
  }
  const words = runs.map(({ weekday, last, from, to }) => {
    const days = weekday === last ? short[weekday - 1] : `${short[weekday - 1]}–${short[last - 1]}`;
    return `${days} ${showClock(from)}–${showClock(to)}`;
  });
  return words.join(', ') || '–';
}
