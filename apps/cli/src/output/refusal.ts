import type { ExitCode, Refusal } from '../exit.js';
import type { Terminal } from '../terminal.js';
import { jsonText } from './json.js';

/** Says why there is no answer: messages on standard error; with --json the same as data on standard output. */
export function refusalAnswer(refusal: Refusal, terminal: Terminal, json: boolean): ExitCode {
  if (json) terminal.out(jsonText({ ok: false, messages: refusal.lines }));
  else for (const line of refusal.lines) terminal.note(line);
  return refusal.code;
}
