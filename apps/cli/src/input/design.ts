import { dirname, resolve } from 'node:path';
import {
  type AircraftDesign,
  type Assumption,
  type CompleteAircraft,
  completeDesign,
  type Message,
  messageText,
  readDesign,
  type SectionSources,
} from '@noonwing/design';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { readText } from './file.js';

/** A design file as the commands use it. */
export interface LoadedDesign {
  readonly path: string;
  readonly text: string;
  readonly design: AircraftDesign;
  readonly aircraft: CompleteAircraft;
  readonly assumptions: readonly Assumption[];
  /** Warnings and notes; errors refuse the file. */
  readonly messages: readonly Message[];
  /** Texts of the coordinate files that the design names, and computed polars where the command uses them. */
  readonly files: SectionSources;
}

export const messageLines = (messages: readonly Message[], path: string): readonly string[] =>
  messages.map((message) => `${message.severity}: ${messageText(message, path)}`);

/** Reads and completes a design file; every message in the refusal where it cannot be used. */
export function loadDesign(path: string): Attempt<LoadedDesign> {
  const text = readText(path);
  if (!text.ok) return text;
  const read = readDesign(text.value);
  if (!read.ok || read.design === undefined) {
    return refuse(exitCode.unusableInput, ...messageLines(read.messages, path));
  }
  const { aircraft, assumptions } = completeDesign(read.design);
  return ready({
    path,
    text: text.value,
    design: read.design,
    aircraft,
    assumptions,
    messages: read.messages,
    files: sectionFiles(aircraft, dirname(path)),
  });
}

/** Coordinate files beside the design; one that cannot be read is left out and becomes a problem where it is needed. */
function sectionFiles(aircraft: CompleteAircraft, folder: string): SectionSources {
  const files: Record<string, string> = {};
  const named = aircraft.surfaces.flatMap(({ stations }) => stations.map(({ section }) => section));
  const blade = aircraft.drive?.propeller.section;
  for (const section of blade === undefined ? named : [...named, blade]) {
    if (section.type !== 'file' || section.path in files) continue;
    const text = readText(resolve(folder, section.path));
    if (text.ok) files[section.path] = text.value;
  }
  return { texts: files };
}
