import type { Warning } from '../result.js';
import type { SectionModel } from './types.js';

/**
 * Where a model is asked beyond what it was compared with.
 * model - section; reynolds - lowest and highest Reynolds number of use [-]
 * Returns one warning per limit that is passed; none for a table, which carries its own grid.
 */
export function sectionWarnings(
  model: SectionModel,
  reynolds: { readonly lowest: number; readonly highest: number },
): readonly Warning[] {
  if (model.kind === 'table') return tableWarnings(model, reynolds);
  const found: Warning[] = [];
  const warn = (code: string, message: string) => found.push({ code: `section.${code}`, message, where: model.name });
  const percent = (value: number) => `${(100 * value).toFixed(1)} %`;
  if (model.leadingEdge === 'round') {
    if (model.thickness < 0.06 || model.thickness > 0.13) {
      warn('thickness', `thickness ${percent(model.thickness)} lies outside 6 to 13 %: the drag interval is widened`);
    }
    if (Math.abs(model.camber) > 0.05) {
      warn('camber', `camber ${percent(model.camber)} exceeds 5 %: drag and maximum lift are extrapolated`);
    }
    if (reynolds.lowest < 6e4) {
      const shown = Math.round(reynolds.lowest / 1000) * 1000;
      warn('reynolds', `Reynolds number ${shown} is below 60000: the flow can hang in either of two states`);
    }
  } else if (reynolds.highest > 5e5) {
    warn('reynolds', 'plates were compared up to Reynolds number 200000 only');
  }
  return found;
}

function tableWarnings(
  table: Extract<SectionModel, { kind: 'table' }>,
  reynolds: { readonly lowest: number; readonly highest: number },
): readonly Warning[] {
  const first = Math.exp(table.logReynoldsStart);
  const last = Math.exp(table.logReynoldsStart + (table.rows - 1) * table.logReynoldsStep);
  if (reynolds.lowest >= first * (1 - 1e-9) && reynolds.highest <= last * (1 + 1e-9)) return [];
  const message = `the polar table covers Reynolds numbers ${first.toFixed(0)} to ${last.toFixed(0)}; its ends are held beyond`;
  return [{ code: 'section.reynolds', message, where: table.name }];
}
