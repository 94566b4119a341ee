import type { Problem, Warning } from '@noonwing/engine';
import { formatQuantity } from '@noonwing/quantities';
import type { Verdict } from '@noonwing/verdict';
import { wrapped } from '../output/table.js';

const sentence = (text: string): string => {
  const trimmed = text.trim().replace(/\.$/, '');
  return trimmed === '' ? '' : `${trimmed[0]!.toUpperCase()}${trimmed.slice(1)}.`;
};

/** A sentence as the continuation of another; MPPT and the like keep their capitals. */
const continued = (text: string): string =>
  (/^[A-Z][a-z ]/.test(text) ? text[0]!.toLowerCase() + text.slice(1) : text).replace(/\.$/, '');

/** Problems with where and remedy, each told once. */
export function problemLines(problems: readonly Problem[]): readonly string[] {
  const seen = new Set<string>();
  return problems.flatMap(({ reason, where, remedy }) => {
    const text = `${sentence(reason)} (${where}) Nearest remedy: ${continued(remedy)}.`;
    if (seen.has(text)) return [];
    seen.add(text);
    return wrapped(text, 100, '  ', '    ');
  });
}

/** Warnings, each told once. */
export function warningLines(warnings: readonly Warning[]): readonly string[] {
  const texts = warnings.map(({ message, where }) => `${where === undefined ? '' : `${where}: `}${message}`);
  return [...new Set(texts)].flatMap((text) => wrapped(text, 100, '  ', '    '));
}

/** Mass and balance point in one sentence. */
export function balanceLine({ prepared }: Verdict): string {
  const { balance, airframe } = prepared.model;
  if (balance === undefined) return 'No masses are described.';
  const mass = formatQuantity({ value: balance.mass, sigma: balance.uncertainty.mass }, 'mass');
  // Without an airframe the places of the parts say nothing.
  if (airframe === undefined) return `Mass ${mass}.`;
  const point = formatQuantity({ value: balance.x, sigma: balance.uncertainty.x }, 'length', { unit: 'mm' });
  return `Mass ${mass}, balance point (CG) ${point} aft of the datum.`;
}
