import { type AircraftDesign, aircraftField } from './aircraft.js';
import { checkDesign, checkPlan } from './checks.js';
import { type DayPlan, dayPlanField } from './day-plan.js';
import { type FileDocument, openDocument } from './document/document.js';
import { type EditResult, editDocument, editDocumentBy, removeFromDocument, yamlText } from './document/edit.js';
import { type Message, type Path, parsePath } from './document/message.js';
import { describeKey, type KeyDescription, wordsOfKey } from './schema/describe.js';
import type { AnyField } from './schema/field.js';
import { documentSchema, type JsonSchema } from './schema/json-schema.js';
import { readField } from './schema/read.js';
import type { Reading } from './schema/report.js';
import { fieldData } from './schema/write.js';
import { type FileKind, versionMessage } from './version.js';

/** A file as read: `ok` when nothing hinders computing; warnings and notes may still be there. */
export interface ReadResult<T> {
  readonly ok: boolean;
  readonly document: FileDocument;
  /** Present where the file could be read at all; only trust it when `ok`. */
  readonly value?: T;
  /** In the order of the file. */
  readonly messages: readonly Message[];
}

const inOrder = (messages: readonly Message[]): readonly Message[] =>
  [...messages].sort((a, b) => a.line - b.line || a.column - b.column);

function readFile<T>(
  text: string,
  kind: FileKind,
  field: AnyField,
  check: (value: T, reading: Reading) => void,
): ReadResult<T> {
  const { document, messages: opening } = openDocument(text);
  if (opening.length > 0) return { ok: false, document, messages: opening };
  const version = versionMessage(document, kind);
  if (version !== undefined) return { ok: false, document, messages: [version] };
  const messages: Message[] = [];
  const reading: Reading = { document, messages };
  const value = readField(field, document.yaml?.contents ?? undefined, [], reading) as T | undefined;
  const failed = () => messages.some((message) => message.severity === 'error');
  if (value !== undefined && !failed()) check(value, reading);
  const result = { ok: value !== undefined && !failed(), document, messages: inOrder(messages) };
  return value === undefined ? result : { ...result, value };
}

export interface DesignResult extends Omit<ReadResult<AircraftDesign>, 'value'> {
  readonly design?: AircraftDesign;
}

export interface DayPlanResult extends Omit<ReadResult<DayPlan>, 'value'> {
  readonly plan?: DayPlan;
}

/** Reads a design file. Never throws; whatever is wrong is in `messages`. */
export function readDesign(text: string): DesignResult {
  const { value, ...rest } = readFile<AircraftDesign>(text, 'design', aircraftField, checkDesign);
  return value === undefined ? rest : { ...rest, design: value };
}

/** Reads a day plan. Never throws; whatever is wrong is in `messages`. */
export function readDayPlan(text: string): DayPlanResult {
  const { value, ...rest } = readFile<DayPlan>(text, 'day', dayPlanField, checkPlan);
  return value === undefined ? rest : { ...rest, plan: value };
}

const asPath = (path: Path | string): Path => (typeof path === 'string' ? parsePath(path) : path);

/**
 * Sets one value of an opened file and gives the new text; comments and everything else stay.
 * path - as in messages, 'battery.x' or 'surfaces.wing.stations[1].chord', or as keys; newText - as written by hand
 */
export const editDesign = (document: FileDocument, path: Path | string, newText: string): EditResult =>
  editDocument(document, asPath(path), newText);

/** Removes one value of an opened file and gives the new text. */
export const removeFromDesign = (document: FileDocument, path: Path | string): EditResult =>
  removeFromDocument(document, asPath(path));

/**
 * Several edits of the text of a design, one after the other; a value that is absent removes what stands at its path.
 * path - as in messages
 */
export const editDesignBy = (
  text: string,
  edits: readonly { readonly path: string; readonly text?: string }[],
): EditResult =>
  editDocumentBy(
    openDocument(text).document,
    edits.map(({ path, text: value }) => ({ path: asPath(path), ...(value === undefined ? {} : { text: value }) })),
  );

/** A design as the text of a file. Reading it gives the same design; comments are not part of a design. */
export const writeDesign = (design: AircraftDesign, comment?: string): string =>
  yamlText(fieldData(aircraftField, design), comment);

/** A day plan as the text of a file. */
export const writeDayPlan = (plan: DayPlan, comment?: string): string =>
  yamlText(fieldData(dayPlanField, plan), comment);

export const designJsonSchema = (): JsonSchema => documentSchema(aircraftField, 'noonwing design file, version 1');
export const dayPlanJsonSchema = (): JsonSchema => documentSchema(dayPlanField, 'noonwing day plan, version 1');

/** What a key of the design file holds: kind, units, help, lever step; undefined where there is no such key. */
export const describeDesignKey = (path: Path | string): KeyDescription | undefined =>
  describeKey(aircraftField, asPath(path));

export const describeDayPlanKey = (path: Path | string): KeyDescription | undefined =>
  describeKey(dayPlanField, asPath(path));

/** What a path of the design file is called by people: 'row of cells "top": number of cells'; undefined where there is no such key. */
export const wordsOfDesignKey = (path: Path | string): string | undefined => wordsOfKey(aircraftField, asPath(path));

export const wordsOfDayPlanKey = (path: Path | string): string | undefined => wordsOfKey(dayPlanField, asPath(path));
