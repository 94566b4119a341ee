import type { Job, Pool } from '@noonwing/work';
import type { DayAnswer, DayRequest } from './answer.js';

/** Where the answer to the newest question stands. */
export type Progress =
  | { readonly kind: 'computing' }
  /** The central case is there, its uncertainty not yet. */
  | { readonly kind: 'sampling'; readonly share: number }
  /** Looking for what would help most. */
  | { readonly kind: 'comparing'; readonly share: number }
  | { readonly kind: 'done' }
  | { readonly kind: 'unreadable' }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly reason: string };

type DayPool = Pick<Pool<DayRequest, DayAnswer, number>, 'run'>;

export interface AskerOptions {
  /** For the central case: never busy with anything else, so that an edit is answered at once. */
  readonly central: DayPool;
  /** For the uncertainty. */
  readonly sampling: DayPool;
  readonly samples: number;
  readonly onAnswer: (answer: DayAnswer) => void;
  readonly onProgress: (progress: Progress) => void;
  /** Does something after a pause in the edits; returns what calls it off. */
  readonly afterPause: (action: () => void) => () => void;
}

export interface Asker {
  /** The newest question wins: answers to earlier ones are dropped. */
  readonly ask: (question: Omit<DayRequest, 'samples'>) => void;
  /** Which change would help most; the answer has `levers`. */
  readonly compare: (question: Omit<DayRequest, 'samples'>) => void;
  /** Gives the uncertainty up; the central answer stays. */
  readonly stop: () => void;
}

/** Asks first for the central case, then, when edits pause, for its uncertainty. */
export function createAsker(options: AskerOptions): Asker {
  const { central, sampling, samples, onAnswer, onProgress, afterPause } = options;
  let newest = 0;
  let callOff = () => {};
  let sampled: Job<DayAnswer> | undefined;
  let compared: Job<DayAnswer> | undefined;

  const giveUp = () => {
    callOff();
    callOff = () => {};
    sampled?.cancel();
    sampled = undefined;
    compared?.cancel();
    compared = undefined;
  };

  const sample = async (question: Omit<DayRequest, 'samples'>, number: number) => {
    sampled = sampling.run(
      { ...question, samples },
      { channel: 'uncertainty', onProgress: (share) => number === newest && onProgress({ kind: 'sampling', share }) },
    );
    const ended = await sampled.result;
    if (number !== newest) return;
    if (ended.kind === 'done') {
      onAnswer(ended.response);
      onProgress({ kind: 'done' });
    } else if (ended.kind === 'failed') onProgress({ kind: 'failed', reason: ended.reason });
  };

  const ask = async (question: Omit<DayRequest, 'samples'>) => {
    newest += 1;
    const number = newest;
    giveUp();
    onProgress({ kind: 'computing' });
    const ended = await central.run({ ...question, samples: 0 }, { channel: 'day' }).result;
    if (number !== newest) return;
    if (ended.kind === 'failed') onProgress({ kind: 'failed', reason: ended.reason });
    if (ended.kind !== 'done') return;
    onAnswer(ended.response);
    const { result } = ended.response;
    if (result === undefined) return onProgress({ kind: 'unreadable' });
    if (result.skies.length === 0) return onProgress({ kind: 'done' });
    onProgress({ kind: 'sampling', share: 0 });
    callOff = afterPause(() => void sample(question, number));
  };

  const stop = () => {
    newest += 1;
    giveUp();
    onProgress({ kind: 'stopped' });
  };

  const compare = async (question: Omit<DayRequest, 'samples'>) => {
    const number = newest;
    compared?.cancel();
    onProgress({ kind: 'comparing', share: 0 });
    compared = sampling.run(
      { ...question, samples: 0, levers: true },
      { onProgress: (share) => number === newest && onProgress({ kind: 'comparing', share }) },
    );
    const ended = await compared.result;
    if (number !== newest) return;
    if (ended.kind === 'done') {
      onAnswer(ended.response);
      onProgress({ kind: 'done' });
    } else if (ended.kind === 'failed') onProgress({ kind: 'failed', reason: ended.reason });
  };

  return { ask: (question) => void ask(question), compare: (question) => void compare(question), stop };
}
