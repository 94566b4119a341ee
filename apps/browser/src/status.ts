import type { Notice } from '@noonwing/work';
import type { Progress } from './asker.js';
import { percentText } from './words.js';

/** Where the computation stands, in words. */
export function progressText(progress: Progress): string {
  switch (progress.kind) {
    case 'computing':
      return 'Computing …';
    case 'sampling':
      return `The central case is below. How sure it is: ${percentText(progress.share)} computed.`;
    case 'comparing':
      return `Trying changes, each with balance and strings restored: ${percentText(progress.share)} done.`;
    case 'done':
      return 'Computed, with its uncertainty.';
    case 'unreadable':
      return 'A file cannot be read as it stands: the messages say where. Below is the last verdict that could be computed.';
    case 'stopped':
      return 'Stopped: the central case is below, without its uncertainty. Any change computes again.';
    case 'failed':
      return `This could not be computed: ${progress.reason}. What you wrote is kept; any change tries again.`;
  }
}

/** What happened to a worker, and that nothing is lost by it. */
export function noticeText(notice: Notice): string {
  return notice.kind === 'worker replaced'
    ? `A background worker ended (${notice.reason}). It is replaced, its question is asked again, and what you wrote is kept.`
    : `A background worker did not stop in time (${notice.reason}) and was replaced.`;
}
