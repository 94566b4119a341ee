import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { heading, lineReader, type Terminal } from './terminal.js';

describe('terminal', () => {
  it('keeps piped answers in order until they are asked for, and says when they end', async () => {
    const input = new PassThrough();
    const output = new PassThrough();
    const reader = lineReader(input, output);
    input.end('one\ntwo\n');
    expect(await reader.ask('First?\n> ')).toBe('one');
    expect(await reader.ask('Second?\n> ')).toBe('two');
    expect(await reader.ask('Third?\n> ')).toBeUndefined();
    reader.close();
    expect(String(output.read())).toContain('First?\n');
  });

  it('waits for an answer that comes after the question', async () => {
    const input = new PassThrough();
    const reader = lineReader(input, new PassThrough());
    const answer = reader.ask('> ');
    input.write('late\n');
    expect(await answer).toBe('late');
    reader.close();
    expect(await reader.ask('> ')).toBeUndefined();
  });

  it('marks headings only where colour is allowed', () => {
    const terminal = (colour: boolean) => ({ colour }) as Terminal;
    expect(heading(terminal(false), 'Day')).toBe('Day');
    expect(heading(terminal(true), 'Day')).toBe('\u001b[1mDay\u001b[0m');
  });
});
