const cache = new Map<string, Intl.DateTimeFormat>();

function formatter(timeZone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = timeZone + JSON.stringify(options);
  const known = cache.get(key) ?? new Intl.DateTimeFormat('en-US', { ...options, timeZone });
  cache.set(key, known);
  return known;
}

const day = { year: 'numeric', month: 'short', day: 'numeric' } as const;
const time = { hour: 'numeric', minute: '2-digit' } as const;

export const showMoment = (instant: string, zone: string) =>
  formatter(zone, { ...day, ...time }).format(new Date(instant));
/** With the zone of the clock, where it could be taken for another. */
export const showInZone = (instant: string, zone: string) =>
  formatter(zone, { ...day, ...time, timeZoneName: 'short' }).format(new Date(instant));
export const showDay = (instant: string, zone: string) => formatter(zone, day).format(new Date(instant));
export const showTime = (instant: string, zone: string) => formatter(zone, time).format(new Date(instant));

/** A time of the day (hh:mm) as it is written. */
export const showClock = (clock: string) =>
  formatter('UTC', time).format(new Date(`1970-01-01T${clock}:00Z`));

/** A calendar date (yyyy-mm-dd) has no time zone; noon UTC keeps it from slipping to its neighbour. */
export const showDate = (date: string) => formatter('UTC', day).format(new Date(`${date}T12:00:00Z`));
/** Words with calendar dates in them, these as people write them. */
export const datesShown = (words: string) => words.replaceAll(/\b\d{4}-\d{2}-\d{2}\b/g, showDate);
export const showWeekday = (date: string) =>
  formatter('UTC', { weekday: 'long', month: 'short', day: 'numeric' }).format(new Date(`${date}T12:00:00Z`));

/** The same where there is little room. */
export const showShortWeekday = (date: string) =>
  formatter('UTC', { weekday: 'short', month: 'short', day: 'numeric' }).format(
    new Date(`${date}T12:00:00Z`),
  );

function partsOf(instant: Date, zone: string): Record<string, string> {
  const shown = formatter(zone, {
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(instant);
  return Object.fromEntries(shown.map(({ type, value }) => [type, value]));
}

/** The calendar date and clock time of an instant at the company. */
export function clockOf(instant: string | Date, zone: string): { date: string; time: string } {
  const p = partsOf(new Date(instant), zone);
  return { date: `${p.year}-${p.month}-${p.day}`, time: `${p.hour}:${p.minute}` };
}

export const today = (zone: string) => clockOf(new Date(), zone).date;

export function addDays(date: string, days: number): string {
  const moved = new Date(`${date}T12:00:00Z`);
  moved.setUTCDate(moved.getUTCDate() + days);
  return moved.toISOString().slice(0, 10);
}

/** The Monday of the week a date lies in. */
export function weekStart(date: string): string {
  const weekday = new Date(`${date}T12:00:00Z`).getUTCDay();
  return addDays(date, -((weekday + 6) % 7));
}

/** The instant at which the company's clock shows this; a clock change in between is settled by asking twice. */
export function instantOf(date: string, clock: string, zone: string): string {
  const wanted = Date.parse(`${date}T${clock}:00Z`);
  if (Number.isNaN(wanted)) return '';
  let guess = wanted;
  for (let round = 0; round < 2; round += 1) {
    const shown = clockOf(new Date(guess), zone);
    guess += wanted - Date.parse(`${shown.date}T${shown.time}:00Z`);
  }
  return new Date(guess).toISOString();
}
