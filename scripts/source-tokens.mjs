/**
 * Reads TypeScript text into tokens, as far as imports need it: comments, strings, templates and regular expressions are told
 * apart, so that an import in a comment does not count and one behind a string does. (The compiler here offers no interface.)
 */

/**
 * @typedef {object} Token
 * @property {'word' | 'string' | 'template' | 'mark' | 'directive'} kind 'template' is a template literal with a substitution,
 *   one without is a string; a directive is a line that begins with three slashes
 * @property {string} text the word or mark, the value of a string, the text of a directive
 * @property {number} line from 1
 */

/** Words after which a slash begins a regular expression although a word stands before it. */
const beforeExpression = new Set(
  'return typeof instanceof in of new delete void throw case do else yield await export default'.split(' '),
);

/**
 * Whether a slash after this token begins a regular expression; otherwise it divides.
 * @param {Token | undefined} previous
 */
function startsExpression(previous) {
  if (previous === undefined) return true;
  if (previous.kind === 'word') return beforeExpression.has(previous.text);
  if (previous.kind === 'mark') return previous.text !== ')' && previous.text !== ']' && previous.text !== '}';
  return previous.kind === 'directive';
}

/**
 * End of a regular expression that begins at `start`, or undefined where the line ends first.
 * @param {string} text
 * @param {number} start
 */
function expressionEnd(text, start) {
  let inClass = false;
  for (let at = start + 1; at < text.length && text[at] !== '\n'; at += 1) {
    if (text[at] === '\\') at += 1;
    else if (text[at] === '[') inClass = true;
    else if (text[at] === ']') inClass = false;
    else if (text[at] === '/' && !inClass) return at + 1;
  }
  return undefined;
}

/**
 * The character that an escape stands for, with where it ends.
 * @param {string} text
 * @param {number} at place of the backslash
 * @returns {readonly [string, number]}
 */
function escaped(text, at) {
  const hexadecimal = /^(?:x([0-9a-f]{2})|u([0-9a-f]{4})|u\{([0-9a-f]{1,6})\})/i.exec(text.slice(at + 1, at + 12));
  if (hexadecimal) {
    const code = Number.parseInt(hexadecimal[1] ?? hexadecimal[2] ?? hexadecimal[3] ?? '0', 16);
    return [code <= 0x10ffff ? String.fromCodePoint(code) : '', at + 1 + hexadecimal[0].length];
  }
  return [text[at + 1] === '\n' ? '' : (text[at + 1] ?? ''), at + 2];
}

/**
 * @param {string} text
 * @param {number} start place of the quote
 * @returns {readonly [value: string, end: number]} a string ends at the end of its line, also where the quote is missing
 */
function quoted(text, start) {
  const quote = text[start];
  let value = '';
  let at = start + 1;
  while (at < text.length && text[at] !== quote && text[at] !== '\n') {
    if (text[at] === '\\') {
      const [character, next] = escaped(text, at);
      value += character;
      at = next;
    } else {
      value += text[at];
      at += 1;
    }
  }
  return [value, text[at] === quote ? at + 1 : at];
}

/**
 * @param {string} text
 * @returns {Token[]}
 */
export function tokensOf(text) {
  /** @type {Token[]} */
  const tokens = [];
  /** For each open template substitution, how many braces are open inside it. @type {number[]} */
  const substitutions = [];
  let line = 1;
  let at = 0;

  /** @param {number} end */
  const advance = (end) => {
    for (let index = at; index < end; index += 1) if (text[index] === '\n') line += 1;
    at = end;
  };
  /** @param {Token['kind']} kind @param {string} value @param {number} end */
  const push = (kind, value, end) => {
    tokens.push({ kind, text: value, line });
    advance(end);
  };
  /** Reads template text from `start` up to its end or to its next substitution. @param {number} start @param {boolean} opens */
  const template = (start, opens) => {
    let value = '';
    let index = start;
    while (index < text.length) {
      if (text[index] === '`') return push(opens ? 'string' : 'template', value, index + 1);
      if (text[index] === '$' && text[index + 1] === '{') {
        substitutions.push(0);
        return push('template', value, index + 2);
      }
      if (text[index] === '\\') {
        const [character, next] = escaped(text, index);
        value += character;
        index = next;
      } else {
        value += text[index];
        index += 1;
      }
    }
    push('template', value, index);
  };

  while (at < text.length) {
    const here = text[at] ?? '';
    const next = text[at + 1];
    if (/\s/.test(here)) advance(at + 1);
    else if (here === '/' && next === '/') {
      const end = text.indexOf('\n', at) < 0 ? text.length : text.indexOf('\n', at);
      if (text[at + 2] === '/') push('directive', text.slice(at, end), end);
      else advance(end);
    } else if (here === '/' && next === '*') {
      const end = text.indexOf('*/', at + 2);
      advance(end < 0 ? text.length : end + 2);
    } else if (here === '"' || here === "'") {
      const [value, end] = quoted(text, at);
      push('string', value, end);
    } else if (here === '`') template(at + 1, true);
    else if (here === '}' && substitutions.at(-1) === 0) {
      substitutions.pop();
      template(at + 1, false);
    } else if (here === '/' && startsExpression(tokens.at(-1)) && expressionEnd(text, at) !== undefined) {
      push('mark', '/regular expression/', expressionEnd(text, at) ?? at + 1);
    } else {
      const word = /^[\p{ID_Start}$_#@\d][\p{ID_Continue}$\u200c\u200d]*/u.exec(text.slice(at, at + 200));
      if (word) push('word', word[0], at + word[0].length);
      else {
        const depth = substitutions.length - 1;
        if (here === '{' && depth >= 0) substitutions[depth] = (substitutions[depth] ?? 0) + 1;
        if (here === '}' && depth >= 0) substitutions[depth] = (substitutions[depth] ?? 0) - 1;
        push('mark', here, at + 1);
      }
    }
  }
  return tokens;
}

/** @typedef {{ specifier: string | undefined, line: number, form: string }} Import specifier undefined: computed at run time */

/**
 * Every module that a text names: import, import type, export from, import(), require(), import.meta.resolve(),
 * declare module, and reference directives.
 * @param {string} text
 * @returns {Import[]}
 */
export function importsOf(text) {
  const tokens = tokensOf(text);
  /** @type {Import[]} */
  const found = [];
  const called = (/** @type {number} */ at, /** @type {string} */ form) => {
    if (tokens[at]?.text !== '(' || tokens[at]?.kind !== 'mark') return;
    const argument = tokens[at + 1];
    const closes = tokens[at + 2]?.kind === 'mark' && [')', ','].includes(tokens[at + 2]?.text ?? '');
    const specifier = argument?.kind === 'string' && closes ? argument.text : undefined;
    found.push({ specifier, line: tokens[at]?.line ?? 0, form });
  };
  tokens.forEach((token, at) => {
    const next = tokens[at + 1];
    const before = tokens[at - 1];
    const isMember = before?.kind === 'mark' && before.text === '.';
    if (token.kind === 'directive') {
      const reference = /^\/\/\/\s*<reference\s+(?:path|types)\s*=\s*["']([^"']*)["']/.exec(token.text);
      if (reference) found.push({ specifier: reference[1], line: token.line, form: 'reference' });
    }
    if (token.kind !== 'word') return;
    if (token.text === 'from' && next?.kind === 'string' && !isMember) {
      found.push({ specifier: next.text, line: next.line, form: 'from' });
    }
    if (token.text === 'import' && !isMember) {
      if (next?.kind === 'string') found.push({ specifier: next.text, line: next.line, form: 'import' });
      else called(at + 1, 'import()');
    }
    if (token.text === 'require' && !isMember) {
      if (next?.text === '.' && tokens[at + 2]?.text === 'resolve') called(at + 3, 'require.resolve()');
      else called(at + 1, 'require()');
    }
    if (token.text === 'meta' && isMember && tokens[at + 2]?.text === 'resolve')
      called(at + 3, 'import.meta.resolve()');
    if (token.text === 'module' && before?.text === 'declare' && next?.kind === 'string') {
      found.push({ specifier: next.text, line: next.line, form: 'declare module' });
    }
  });
  return found;
}

/** What makes a result depend on more than its arguments, as token sequences. */
const impurities = [
  { words: ['Math', '.', 'random'], name: 'Math.random' },
  { words: ['Date', '.', 'now'], name: 'Date.now' },
  { words: ['new', 'Date', '(', ')'], name: 'new Date() of the present' },
  { words: ['performance', '.', 'now'], name: 'performance.now' },
];

/**
 * Uses of the clock and of randomness.
 * @param {string} text
 * @returns {{ name: string, line: number }[]}
 */
export function impuritiesOf(text) {
  const tokens = tokensOf(text).filter((token) => token.kind !== 'directive');
  return impurities.flatMap(({ words, name }) =>
    tokens
      .filter((_, at) =>
        words.every((word, offset) => tokens[at + offset]?.kind !== 'string' && tokens[at + offset]?.text === word),
      )
      .map((token) => ({ name, line: token.line })),
  );
}
