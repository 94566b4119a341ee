import type { DeflectedState, TurningRow } from '@noonwing/engine/section/polars';
import { isRecord, numbers, rounded } from './stored-values.js';

/** Computed deflected sections of controls by their content. */
export interface ControlStore {
  readonly [key: string]: { readonly name: string; readonly rows: readonly TurningRow[] };
}

/** A state as written: deflection [rad], incidence [rad], drag, moment about the quarter chord, about the hinge. */
const written = ({ deflection, alpha, drag, moment, hingeMoment }: DeflectedState): readonly number[] => [
  rounded(deflection, 5),
  rounded(alpha, 5),
  rounded(drag, 5),
  rounded(moment, 4),
  rounded(hingeMoment, 5),
];

/** Text of a store of controls as it stands in a store of polars; empty where there are none. One line a Reynolds number. */
export function controlsText(controls: ControlStore): string {
  const entries = Object.entries(controls).map(([key, { name, rows }]) => {
    const lines = rows.map(
      ({ reynolds, free, tripped }) =>
        `      ${JSON.stringify({ reynolds, free: free.map(written), tripped: tripped.map(written) })}`,
    );
    return `    ${JSON.stringify(key)}: {"name": ${JSON.stringify(name)}, "rows": [\n${lines.join(',\n')}\n    ]}`;
  });
  return entries.length === 0 ? '' : `,\n  "controls": {\n${entries.join(',\n')}\n  }`;
}

function stateOf(value: unknown): DeflectedState | undefined {
  if (!numbers(value) || value.length !== 5) return undefined;
  const [deflection, alpha, drag, moment, hingeMoment] = value as [number, number, number, number, number];
  return drag > 0 ? { deflection, alpha, drag, moment, hingeMoment } : undefined;
}

function statesOf(value: unknown): readonly DeflectedState[] | undefined {
  if (!Array.isArray(value)) return undefined;
  const states = value.map(stateOf).filter((state) => state !== undefined);
  const rising = states.every((state, i) => i === 0 || state.deflection > states[i - 1]!.deflection);
  return states.length === value.length && rising ? states : undefined;
}

function rowOf(value: unknown): TurningRow | undefined {
  if (!isRecord(value)) return undefined;
  const { reynolds } = value;
  const [free, tripped] = [statesOf(value.free), statesOf(value.tripped)];
  if (typeof reynolds !== 'number' || !(reynolds > 0) || free === undefined || tripped === undefined) return undefined;
  return { reynolds, free, tripped };
}

/** The `controls` of a store as read; undefined where any part of them cannot be. A store of before they were computed has none. */
export function controlStoreOf(value: unknown): ControlStore | undefined {
  if (value === undefined) return {};
  if (!isRecord(value)) return undefined;
  const store: Record<string, ControlStore[string]> = {};
  for (const [key, one] of Object.entries(value)) {
    if (!isRecord(one) || typeof one.name !== 'string' || !Array.isArray(one.rows)) return undefined;
    const rows = one.rows.map(rowOf).filter((row) => row !== undefined);
    const rising = rows.every((row, i) => i === 0 || row.reynolds > rows[i - 1]!.reynolds);
    if (rows.length !== one.rows.length || !rising) return undefined;
    store[key] = { name: one.name, rows };
  }
  return store;
}
