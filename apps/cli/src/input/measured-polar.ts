import { type MeasuredRun, measuredRuns } from '@noonwing/engine/section/polars';
import { parseMeasuredPolar } from '@noonwing/files';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { readText } from './file.js';

/** Measured points of a section as read from a file of separated values. */
export interface MeasuredInput {
  readonly path: string;
  readonly runs: readonly MeasuredRun[];
  readonly comments: readonly string[];
  /** Findings of the reading. */
  readonly notes: readonly string[];
}

/** Reads measured points (docs/measured-polars.md), or says where the file cannot be used, what was found and what is expected. */
export function readMeasured(path: string): Attempt<MeasuredInput> {
  const text = readText(path);
  if (!text.ok) return text;
  const read = parseMeasuredPolar(text.value);
  if (!read.ok) return refuse(exitCode.unusableInput, `${path}, ${read.where}: ${read.reason} ${read.remedy}`);
  const runs = measuredRuns(read.value.rows.map(({ line: _, ...point }) => point));
  const back = runs.flatMap(({ returning }) => returning).length;
  return ready({
    path,
    runs,
    comments: read.value.comments,
    notes: [
      ...read.warnings.map(({ message, where }) => (where === undefined ? message : `${message} (${path}, ${where})`)),
      ...(back === 0 ? [] : [`${back} points on the way back from stall are kept but not used.`]),
    ],
  });
}
