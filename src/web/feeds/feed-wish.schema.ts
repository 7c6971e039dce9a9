import { z } from 'zod';

export const FeedWishSchema = z.object({
  audience: z.enum(['technician', 'company']).default('company'),
  tasksAs: z.enum(['to-do', 'event']).default('event'),
  alarm: z.enum(['none', '60', '1440']).default('none'),
});
export type FeedWishForm = z.output<typeof FeedWishSchema>;

export const ALARM_CHOICES = [
  { value: 'none', label: 'no alarm' },
  { value: '60', label: 'one hour before' },
  { value: '1440', label: 'the day before' },
] as const;

export const TASK_CHOICES = [
  { value: 'event', label: 'notes on their day' },
  { value: 'to-do', label: 'to-dos with a last day' },
] as const;

export function alarmMinutes({ alarm }: FeedWishForm): number | null {
  return alarm === 'none' ? null : Number(alarm);
}
