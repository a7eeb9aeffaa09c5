import ical, { ICalCalendarMethod, ICalEventStatus } from 'ical-generator';

export interface CalendarEntry {
  id: string;
  kind: 'rough' | 'final' | 'reinspection' | 'quality';
  startsAt: Date;
  endsAt: Date;
  updatedAt: Date;
  createdAt: Date;
  sequence: number;
  cancelled: boolean;
  note: string | null;
  access: string | null;
  house: {
    address: string;
    lot: string;
    latitude: number | null;
    longitude: number | null;
    community: { name: string; latitude: number | null; longitude: number | null };
    builder: { name: string };
  };
}

const kindWords = {
  rough: 'Rough-in visit',
  final: 'Final visit',
  reinspection: 'Reinspection',
  quality: 'Quality visit',
} as const;

/**
 * Visits as iCalendar (RFC 5545): one event a visit with the same UID for ever, SEQUENCE raised with each change,
 * times in UTC, and what fell away as cancelled rather than left out, so that a calendar takes it out again. The
 * same visits give the same text.
 */
export function calendarText(name: string, entries: readonly CalendarEntry[], publicUrl: string): string {
  const calendar = ical({
    name,
    prodId: { company: 'Countercheck', product: 'visits', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
    // How often a programme may ask again.
    ttl: 15 * 60,
  });
  for (const entry of entries) {
    const { address, lot, community, builder } = entry.house;
    const lines = [
      `${builder.name}, ${community.name}, lot ${lot}`,
      ...(entry.access ? [`Access: ${entry.access}`] : []),
      ...(entry.note ? [entry.note] : []),
    ];
    const latitude = entry.house.latitude ?? community.latitude;
    const longitude = entry.house.longitude ?? community.longitude;
    calendar.createEvent({
      id: `${entry.id}@countercheck`,
      sequence: entry.sequence,
      start: entry.startsAt,
      end: entry.endsAt,
      // Of the record, not of the asking: otherwise no two answers would be the same.
      stamp: entry.updatedAt,
      created: entry.createdAt,
      lastModified: entry.updatedAt,
      summary: `${kindWords[entry.kind]}: ${address}`,
      description: lines.join('\n'),
      url: `${publicUrl}/visits/${entry.id}`,
      status: entry.cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
      location:
        latitude !== null && longitude !== null
          ? { title: address, geo: { lat: latitude, lon: longitude } }
          : { title: address },
    });
  }
  return calendar.toString();
}
