import { instantFrom } from '../../platform/clock.js';
import { contentLine, escapedText } from './content-line.js';
import { timeZoneBlock } from './time-zone-block.js';

/** What an event and a to-do have in common (RFC 5545 section 3.6). */
interface Entry {
  /** The same for ever. */
  readonly uid: string;
  /** Goes up with each change. */
  readonly sequence: number;
  readonly createdAt: string;
  /** Instant of the last change; it stands as DTSTAMP too, so that an unchanged calendar is the same text. */
  readonly changedAt: string;
  readonly summary: string;
  readonly description: string;
  readonly location?: string;
  readonly geo?: { readonly latitude: number; readonly longitude: number };
  readonly categories?: readonly string[];
  /** An alarm this many minutes before. */
  readonly alarmMinutesBefore?: number | null;
}

/** Something on a day, or from one local time to another. */
export interface CalendarEvent extends Entry {
  readonly kind: 'event';
  readonly status: 'TENTATIVE' | 'CONFIRMED' | 'CANCELLED';
  readonly when:
    | { readonly onDay: string }
    | { readonly onDay: string; readonly fromTime: string; readonly toTime: string; readonly timeZone: string };
  /** An all-day note takes no time of anybody's. */
  readonly takesTime: boolean;
}

/** Something to do by a day. */
export interface CalendarToDo extends Entry {
  readonly kind: 'to-do';
  readonly status: 'NEEDS-ACTION' | 'IN-PROCESS' | 'COMPLETED' | 'CANCELLED';
  readonly startOn: string;
  readonly dueOn: string;
  readonly completedAt: string | null;
  /** 1 is highest (RFC 5545 section 3.8.1.9). */
  readonly priority: number;
}

export interface CalendarFile {
  readonly name: string;
  readonly description: string;
  /** How often it is worth looking again. [hours] */
  readonly refreshHours: number;
  readonly entries: readonly (CalendarEvent | CalendarToDo)[];
  /** Zones are written out for these years around the entries. */
  readonly zonesFromMs: number;
  readonly zonesToMs: number;
}

/** A calendar as iCalendar text (RFC 5545, with the names and the refresh interval of RFC 7986). */
export function calendarText(calendar: CalendarFile): string {
  const zones = [
    ...new Set(
      calendar.entries.flatMap((entry) =>
        entry.kind === 'event' && 'timeZone' in entry.when ? [entry.when.timeZone] : [],
      ),
    ),
  ].sort();
  const name = escapedText(calendar.name);
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Tarnkeep//Pond care//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    contentLine('NAME', name),
    contentLine('X-WR-CALNAME', name),
    contentLine('DESCRIPTION', escapedText(calendar.description)),
    contentLine('REFRESH-INTERVAL', `PT${calendar.refreshHours}H`, { VALUE: 'DURATION' }),
    contentLine('X-PUBLISHED-TTL', `PT${calendar.refreshHours}H`),
    ...zones.flatMap((zone) => timeZoneBlock(zone, calendar.zonesFromMs, calendar.zonesToMs)),
    ...calendar.entries.flatMap((entry) => (entry.kind === 'event' ? eventLines(entry) : toDoLines(entry))),
    'END:VCALENDAR',
  ];
  return `${lines.join('\r\n')}\r\n`;
}

function eventLines(event: CalendarEvent): string[] {
  return [
    'BEGIN:VEVENT',
    ...entryLines(event),
    ...('timeZone' in event.when
      ? [timed('DTSTART', event.when, event.when.fromTime), timed('DTEND', event.when, event.when.toTime)]
      : [dated('DTSTART', event.when.onDay)]),
    `STATUS:${event.status}`,
    `TRANSP:${event.takesTime ? 'OPAQUE' : 'TRANSPARENT'}`,
    ...alarmLines(event, 'START'),
    'END:VEVENT',
  ];
}

function toDoLines(toDo: CalendarToDo): string[] {
  // DUE of a to-do must lie after its DTSTART (RFC 5545 section 3.8.2.3): one that begins and ends on a day has no start.
  const start = toDo.startOn < toDo.dueOn ? [dated('DTSTART', toDo.startOn)] : [];
  return [
    'BEGIN:VTODO',
    ...entryLines(toDo),
    ...start,
    dated('DUE', toDo.dueOn),
    `STATUS:${toDo.status}`,
    ...(toDo.status === 'COMPLETED' && toDo.completedAt !== null
      ? [contentLine('COMPLETED', utc(toDo.completedAt)), 'PERCENT-COMPLETE:100']
      : []),
    `PRIORITY:${toDo.priority}`,
    ...alarmLines(toDo, 'END'),
    'END:VTODO',
  ];
}

function entryLines(entry: Entry): string[] {
  return [
    contentLine('UID', entry.uid),
    contentLine('DTSTAMP', utc(entry.changedAt)),
    contentLine('CREATED', utc(entry.createdAt)),
    contentLine('LAST-MODIFIED', utc(entry.changedAt)),
    `SEQUENCE:${entry.sequence}`,
    contentLine('SUMMARY', escapedText(entry.summary)),
    contentLine('DESCRIPTION', escapedText(entry.description)),
    ...(entry.location ? [contentLine('LOCATION', escapedText(entry.location))] : []),
    ...(entry.geo ? [`GEO:${entry.geo.latitude.toFixed(5)};${entry.geo.longitude.toFixed(5)}`] : []),
    ...(entry.categories?.length ? [contentLine('CATEGORIES', entry.categories.map(escapedText).join(','))] : []),
  ];
}

function alarmLines(entry: Entry & { status: string }, related: 'START' | 'END'): string[] {
  const minutes = entry.alarmMinutesBefore ?? null;
  if (minutes === null || entry.status === 'CANCELLED' || entry.status === 'COMPLETED') return [];
  return [
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    contentLine('DESCRIPTION', escapedText(entry.summary)),
    contentLine('TRIGGER', `-PT${minutes}M`, related === 'END' ? { RELATED: 'END' } : {}),
    'END:VALARM',
  ];
}

function timed(name: string, when: { onDay: string; timeZone: string }, time: string): string {
  const value = `${when.onDay.replaceAll('-', '')}T${time.replace(':', '')}00`;
  return contentLine(name, value, { TZID: when.timeZone });
}

function dated(name: string, day: string): string {
  return contentLine(name, day.replaceAll('-', ''), { VALUE: 'DATE' });
}

function utc(instant: string): string {
  return instantFrom(instant).toFormat("yyyyMMdd'T'HHmmss'Z'");
}
