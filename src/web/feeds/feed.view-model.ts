import type { CalendarFeedEntity } from '../../feeds/index.js';
import { civilDayIn, instantFrom } from '../../platform/clock.js';
import { longDay } from '../../reminders/index.js';

export interface FeedLine {
  readonly id: string;
  readonly what: string;
  readonly since: string;
}

const WHAT = {
  homeowner: 'Your tasks and our visits',
  technician: 'My round',
  company: 'All visits of the company',
} as const;

export function feedLines(feeds: readonly CalendarFeedEntity[], timeZone: string): FeedLine[] {
  return feeds.map((feed) => {
    const tasks =
      feed.audience !== 'homeowner' ? '' : feed.tasksAs === 'to-do' ? ', tasks as to-dos' : ', tasks as notes';
    return {
      id: feed.id,
      what: `${WHAT[feed.audience]}${tasks}, ${alarmWords(feed)}`,
      since: sinceWords(feed, timeZone),
    };
  });
}

function alarmWords({ alarmMinutesBefore }: CalendarFeedEntity): string {
  if (alarmMinutesBefore === null) return 'no alarm';
  return alarmMinutesBefore >= 1440 ? 'alarm the day before' : 'alarm an hour before';
}

function sinceWords({ createdAt, lastReadAt }: CalendarFeedEntity, timeZone: string): string {
  const day = (instant: string) => longDay(civilDayIn(instantFrom(instant), timeZone));
  return lastReadAt === null
    ? `Given on ${day(createdAt)}, not read by any calendar yet.`
    : `Given on ${day(createdAt)}, last read on ${day(lastReadAt)}.`;
}
