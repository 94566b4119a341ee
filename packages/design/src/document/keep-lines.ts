import { parseDocument } from 'yaml';

/** Lines that say the same read the same here: spaces that only line up columns do not count. */
const said = (line: string): string =>
  line
    .replace(/\s+/g, ' ')
    .replace(/ ?([{}[\],]) ?/g, '$1')
    .trim();

/**
 * Of a text that was written anew, every line that says what a line of the old text said, as it stood there: columns that a
 * person lined up stay so.
 * before - text of the file; after - the same with a change, in the writer's own spacing
 * Returns `after` itself where the result would not mean the same.
 */
export function keepLines(before: string, after: string): string {
  const old = wholeLines(before);
  const fresh = wholeLines(after);
  const partner = matches(old.map(said), fresh.map(said));
  const kept = fresh.map((line, i) => old[partner[i]!] ?? line).join('\n');
  return meaning(kept) === meaning(after) ? kept : after;
}

/** Lines of a text; a group in braces that goes over several lines is one of them. */
function wholeLines(text: string): readonly string[] {
  const lines: string[] = [];
  let depth = 0;
  for (const line of text.split('\n')) {
    if (depth > 0) lines[lines.length - 1] += `\n${line}`;
    else lines.push(line);
    const bare = line.replace(/"[^"]*"|'[^']*'/g, '').replace(/#.*$/, '');
    depth += (bare.match(/[{[]/g)?.length ?? 0) - (bare.match(/[}\]]/g)?.length ?? 0);
    depth = Math.max(0, depth);
  }
  return lines;
}

function meaning(text: string): string | undefined {
  const yaml = parseDocument(text, { logLevel: 'silent' });
  return yaml.errors.length > 0 ? undefined : JSON.stringify(yaml.toJS());
}

/**
 * For each fresh line the old line that stands for it, or -1: a longest common subsequence.
 * Source: R. A. Wagner, M. J. Fischer, The string-to-string correction problem, J. ACM 21, 1974.
 */
function matches(old: readonly string[], fresh: readonly string[]): Int32Array {
  const width = fresh.length + 1;
  const common = new Uint16Array((old.length + 1) * width);
  for (let i = old.length - 1; i >= 0; i--) {
    for (let j = fresh.length - 1; j >= 0; j--) {
      common[i * width + j] =
        old[i] === fresh[j]
          ? common[(i + 1) * width + j + 1]! + 1
          : Math.max(common[(i + 1) * width + j]!, common[i * width + j + 1]!);
    }
  }
  const partner = new Int32Array(fresh.length).fill(-1);
  for (let i = 0, j = 0; i < old.length && j < fresh.length; ) {
    if (old[i] === fresh[j]) partner[j++] = i++;
    else if (common[(i + 1) * width + j]! >= common[i * width + j + 1]!) i++;
    else j++;
  }
  return partner;
}
