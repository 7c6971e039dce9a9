import type { ClosingFlag } from '../../visits/index.js';

const FLAG_WORDS: Readonly<Record<ClosingFlag, string>> = {
  amendment: 'The visit had been closed already. This closing is kept beside the first; the office sees both.',
  'after-cancel': 'The office had cancelled this visit meanwhile. The closing is kept, and the office sees it.',
  'other-person': 'It was closed by somebody else than the person it was given to.',
  'clock-wrong': 'The clock of this phone is wrong; the time of receipt was taken.',
  'task-taken-off': 'It tells of a task the office had taken off the visit.',
  'moved-meanwhile': 'The office had moved this visit to another day meanwhile.',
  differs: 'It says something else than an earlier closing of this visit. Both are kept; the office decides.',
};

/** What the server remarked on a closing; also said by the phone. */
export function flagWords(flag: ClosingFlag): string {
  return FLAG_WORDS[flag];
}
