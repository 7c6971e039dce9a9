import { CalendarFeedController } from './calendar-feed.controller.js';
import { MyCalendarController } from './my-calendar.controller.js';
import { OwnCalendarController } from './own-calendar.controller.js';

/** Calendar addresses: the calendars themselves, and the pages where people get and take back one. */
export const FEED_CONTROLLERS = [CalendarFeedController, OwnCalendarController, MyCalendarController];
