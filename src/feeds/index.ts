export { CalendarFeedEntity, type FeedAudience } from './calendar-feed.entity.js';
export { CalendarFeedsService, type FeedAnswer, type FeedWish } from './calendar-feeds.service.js';
export { CalendarFeedNotFoundError } from './feeds.errors.js';
export { FeedsModule } from './feeds.module.js';
