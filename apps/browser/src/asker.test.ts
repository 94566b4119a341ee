import { createPool, memoryPort, type Notice } from '@noonwing/work';
import { describe, expect, it } from 'vitest';
import type { DayAnswer, DayRequest } from './answer.js';
import { createAsker, type Progress } from './asker.js';
import { exampleDay } from './example-day.js';
import { noticeText, progressText } from './status.js';

/** A pool in this thread; the answer names the design that it was asked about. */
function poolOf(handle: (request: DayRequest) => boolean) {
  return createPool<DayRequest, DayAnswer, number>({
    size: 1,
    connect: () =>
      memoryPort<DayRequest, DayAnswer, number>((request, { report }) => {
        if (request.design === 'throw') throw new Error('no luck');
        if (request.samples > 0) report(0.5);
        const shared = { design: [], plan: [], planText: request.design, stagesRun: [], milliseconds: 0 };
        return handle(request) ? { ...shared, result: exampleDay({ samples: request.samples }) } : shared;
      }),
  });
}

function setUp(readable = (request: DayRequest) => request.design !== 'broken') {
  const answers: string[] = [];
  const states: Progress[] = [];
  let paused: (() => void) | undefined;
  const asker = createAsker({
    central: poolOf(readable),
    sampling: poolOf(readable),
    samples: 8,
    onAnswer: ({ planText, result }) => answers.push(`${planText} ${result?.samples ?? 'none'}`),
    onProgress: (progress) => states.push(progress),
    afterPause: (action) => {
      paused = action;
      return () => {
        paused = undefined;
      };
    },
  });
  const ask = (design: string) => asker.ask({ design, plan: '', edits: [] });
  return { asker, ask, answers, states, endPause: () => paused?.(), isPaused: () => paused !== undefined };
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 10));

describe('asker', () => {
  it('gives the central case first and its uncertainty after a pause', async () => {
    const { ask, answers, states, endPause } = setUp();
    ask('a');
    await settle();
    expect(answers).toEqual(['a 0']);
    endPause();
    await settle();
    expect(answers).toEqual(['a 0', 'a 8']);
    expect(states).toEqual([
      { kind: 'computing' },
      { kind: 'sampling', share: 0 },
      { kind: 'sampling', share: 0.5 },
      { kind: 'done' },
    ]);
  });

  it('shows only the answer to the newest question', async () => {
    const { ask, answers, endPause } = setUp();
    ask('a');
    ask('b');
    ask('c');
    await settle();
    expect(answers).toEqual(['c 0']);
    endPause();
    ask('d');
    await settle();
    expect(answers).toEqual(['c 0', 'd 0']);
  });

  it('asks for no uncertainty of what cannot be read, and says so', async () => {
    const { ask, answers, states, isPaused } = setUp();
    ask('broken');
    await settle();
    expect(answers).toEqual(['broken none']);
    expect(isPaused()).toBe(false);
    expect(states.at(-1)).toEqual({ kind: 'unreadable' });
  });

  it('compares changes when asked to, and not for a question that is past', async () => {
    const { asker, ask, answers, states, endPause } = setUp();
    ask('a');
    await settle();
    endPause();
    await settle();
    asker.compare({ design: 'a', plan: '', edits: [] });
    await settle();
    expect(answers).toEqual(['a 0', 'a 8', 'a 0']);
    expect(states.slice(-2)).toEqual([{ kind: 'comparing', share: 0 }, { kind: 'done' }]);
    asker.compare({ design: 'a', plan: '', edits: [] });
    ask('b');
    await settle();
    expect(answers.at(-1)).toBe('b 0');
    expect(answers).toHaveLength(4);
  });

  it('stops at the central case when told to', async () => {
    const { asker, ask, answers, states, endPause } = setUp();
    ask('a');
    await settle();
    endPause();
    asker.stop();
    await settle();
    expect(answers).toEqual(['a 0']);
    expect(states.at(-1)).toEqual({ kind: 'stopped' });
  });

  it('passes on why something failed', async () => {
    const { ask, states } = setUp();
    ask('throw');
    await settle();
    expect(states.at(-1)).toEqual({ kind: 'failed', reason: 'no luck' });
  });
});

describe('words about the computation', () => {
  it('are there for every state', () => {
    const states: readonly Progress[] = [
      { kind: 'computing' },
      { kind: 'sampling', share: 0.5 },
      { kind: 'comparing', share: 0.2 },
      { kind: 'done' },
      { kind: 'unreadable' },
      { kind: 'stopped' },
      { kind: 'failed', reason: 'no luck' },
    ];
    expect(new Set(states.map(progressText)).size).toBe(states.length);
    expect(progressText(states[1]!)).toContain('50 %');
    expect(progressText(states[6]!)).toContain('no luck');
  });

  it('say that a worker was replaced and nothing is lost', () => {
    const notices: readonly Notice[] = [
      { kind: 'worker replaced', reason: 'out of memory' },
      { kind: 'worker ended for not answering', reason: 'its answer was no longer wanted' },
    ];
    expect(noticeText(notices[0]!)).toMatch(/out of memory.*replaced.*kept/);
    expect(noticeText(notices[1]!)).toContain('did not stop in time');
  });
});
