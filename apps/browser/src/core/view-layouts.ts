import { completeDesign, readDesign } from '@noonwing/design';
import { layoutSlices } from '@noonwing/verdict/layout';
import { hotVoltage } from '@noonwing/verdict/lever-strings';
import { type LaterJob, refusedAs } from './job.js';
import { leverView, limitOption } from './lever-view.js';
import type { LayoutStringsView } from './view.js';

/** Strings of a design by what they are, those that are alike together. */
function stringsIn(text: string): readonly LayoutStringsView[] {
  const { design } = readDesign(text);
  const array = design === undefined ? undefined : completeDesign(design).aircraft.array;
  const found = new Map<string, LayoutStringsView>();
  for (const { cellsInSeries: cells, parallel } of array?.strings ?? []) {
    const key = `${cells} ${parallel}`;
    const count = (found.get(key)?.count ?? 0) + 1;
    found.set(key, { count, cells, parallel, voltage: hotVoltage(array!, cells) });
  }
  return [...found.values()].sort((a, b) => b.cells - a.cells);
}

/** The search of the command line, with the limit speed of the page. */
export const answer: LaterJob<'layouts'>['answer'] = async (
  { input, sky },
  { aircraft, plan, sections: files },
  { stages, inSlices },
) => {
  const limitOf = await limitOption(aircraft, stages);
  const report = await inSlices(layoutSlices({ designText: input.design, plan, files, stages, sky, ...limitOf }));
  if (report === undefined) return undefined;
  if ('ok' in report) return refusedAs(report);
  const layouts = report.levers.map((lever) => ({
    ...leverView(lever, aircraft),
    strings: lever.text === undefined ? [] : stringsIn(lever.text),
  }));
  return { kind: 'layouts', view: { sky: report.sky, base: { ...report.base }, layouts } };
};
