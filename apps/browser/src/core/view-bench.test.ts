import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { laterJobs } from './later-jobs.js';
import type { ComputeResponse } from './messages.js';
import { createHandler } from './worker.js';

const example = (file: string) => readFileSync(new URL(`../../../../examples/${file}`, import.meta.url), 'utf8');
const context = { report: () => {}, stillWanted: async () => true };
const handler = createHandler(() => 0, laterJobs);

const asked = async (records: string, trace = ''): Promise<ComputeResponse> => {
  const input = { design: example('alondra.yaml') + records, plan: example('alondra.day.yaml'), sections: {} };
  return (await handler.answer({ kind: 'bench', input, trace }, context)) as ComputeResponse;
};

const reading = (volts: string, amps: string, more = '') =>
  `\n  - what: array reading\n    voltage: 15.2 V\n    current: ${amps}\n    array voltage: ${volts}\n    time: 2026-06-21T13:00+02:00\n${more}`;

describe('bench', () => {
  it('finds nothing in a sound reading and blames a converter that is set too high', async () => {
    const sound = await asked(`\nmeasured:${reading('8.4 V', '2.45 A')}`);
    if (sound.kind !== 'bench') throw new Error(JSON.stringify(sound));
    expect(sound.view.causes[0]!.name).toBe('healthy');
    expect(structuredClone(sound.view)).toEqual(sound.view);
    const other = reading('8.4 V', '2.4 A', '    converter: other\n');
    const high = await asked(`\nmeasured:${other}${reading('9.5 V', '1.9 A')}`);
    if (high.kind !== 'bench') throw new Error(JSON.stringify(high));
    expect(high.view).toMatchObject({ isBlamed: true, readings: 2 });
    expect(high.view.causes[0]!.name).toBe('converter setting');
  });

  it('takes a trace with it and refuses one that is none', async () => {
    const records = `\nmeasured:${reading('8.4 V', '2.45 A')}`;
    const traced = await asked(records, '0;5.4\n4;5.38\n7;5.3\n8.2;5.0\n9;3.9\n9.6;2.0\n10;0.3\n');
    if (traced.kind !== 'bench') throw new Error(JSON.stringify(traced));
    expect(traced.view.trace![0]).toContain('5.40 A shorted');
    expect(await asked(records, 'a;b\n1;2\n')).toMatchObject({ kind: 'refused' });
    expect(await asked('')).toMatchObject({ kind: 'refused', reason: 'there is no array reading' });
  });
});
