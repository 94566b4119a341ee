import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { readText } from './file.js';

/**
 * Answers of a file, 'key: value' one per line as in YAML; quotes about a value and comments behind ' #' are left out.
 * Flat by intent: the questions are a flat list.
 */
export function answersFromFile(path: string): Attempt<readonly (readonly [string, string])[]> {
  const text = readText(path);
  if (!text.ok) return text;
  const pairs: [string, string][] = [];
  for (const [i, raw] of text.value.split('\n').entries()) {
    const line = raw.replace(/(?:^|\s)#.*$/, '').trim();
    if (line === '' || line === '---') continue;
    const colon = line.indexOf(':');
    if (colon <= 0) {
      return refuse(
        exitCode.unusableInput,
        `${path}:${i + 1}: found "${line.slice(0, 60)}"; expected key: value, such as span: 2.4 m`,
      );
    }
    pairs.push([line.slice(0, colon), unquoted(line.slice(colon + 1).trim())]);
  }
  return ready(pairs);
}

const unquoted = (text: string): string => /^(["'])(.*)\1$/.exec(text)?.[2] ?? text;
