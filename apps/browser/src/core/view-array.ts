import type { Slices, Stages, Verdict } from '@noonwing/verdict';
import { arrayLosses } from '@noonwing/verdict/array-losses';
import { cellSheets, wiredStrings } from '@noonwing/verdict/cell-sheets';
import { cellsOfDay } from '@noonwing/verdict/cells-day';
import { cellsNow } from '@noonwing/verdict/cells-now';
import { shadeCourse } from '@noonwing/verdict/shade-course';
import { shadeNow } from '@noonwing/verdict/shade-now';
import { wiringPlan } from '@noonwing/verdict/wiring';
import { compassWords, wiringPicture } from '@noonwing/verdict/wiring-words';
import { type LaterJob, refused } from './job.js';
import type { ArrayCellView, ArrayView } from './view-array-types.js';

/** What belongs to the day and not to the hour. */
type DayPart = Omit<ArrayView, 'hour' | 'heading' | 'now' | 'casters'>;

function cellViews(verdict: Verdict, sky: number): readonly ArrayCellView[] | undefined {
  const found = cellsOfDay(verdict, sky);
  if (found === undefined) return undefined;
  const wired = new Map(cellSheets(verdict).flatMap(({ cells }) => cells.map((cell) => [cell.index, cell] as const)));
  return found.cells.map(({ cell, light, shade, electricity }, c): ArrayCellView => {
    const { place = cell.index, string, position } = wired.get(c) ?? {};
    return {
      row: cell.row,
      side: cell.side,
      surface: cell.surface,
      face: cell.face,
      place,
      share: cell.share,
      area: cell.area,
      ...(cell.bendRadius === undefined ? {} : { bendRadius: cell.bendRadius }),
      centre: [cell.centre[0], cell.centre[1], cell.centre[2]],
      ...(string === undefined || position === undefined ? {} : { string, position }),
      light,
      shade,
      electricity,
    };
  });
}

function wiringView({ prepared: { model, plan } }: Verdict): ArrayView['wiring'] {
  const found = wiringPlan(model, plan);
  if (found === undefined) return undefined;
  return {
    picture: wiringPicture(found, { aircraft: model.complete.name, battery: model.battery }),
    compass: found.compass.map(compassWords),
    warnings: found.warnings.map(({ message }) => message),
  };
}

function dayPart(verdict: Verdict, sky: number): DayPart | undefined {
  const cells = cellViews(verdict, sky);
  if (cells === undefined) return undefined;
  const { model, skies, run } = verdict.prepared;
  const [shade, losses, wiring] = [shadeCourse(verdict), arrayLosses(verdict, sky), wiringView(verdict)];
  return {
    aircraft: model.complete.name,
    sky: skies[sky]!.name,
    cells,
    sheets: cellSheets(verdict),
    strings: wiredStrings(verdict).map((string, k) => ({
      ...string,
      parallel: run.array!.strings[k]!.parallel,
      converter: model.complete.array?.strings[k]?.converter ?? '',
    })),
    ...(shade === undefined ? {} : { shade }),
    ...(losses === undefined ? {} : { losses }),
    ...(wiring === undefined ? {} : { wiring }),
  };
}

/** The day, remembered from one hour to the next, then the hour; listens between the two. */
function* arrayViewSlices(
  verdict: Verdict,
  at: { readonly sky: number; readonly hour: number; readonly heading: number },
  stages: Stages,
): Slices<{ readonly view: ArrayView | undefined }> {
  const day = stages.run('array of the day', [verdict, at.sky], () => ({ part: dayPart(verdict, at.sky) })).part;
  yield 0.7;
  if (day === undefined) return { view: undefined };
  const { hour, heading } = at;
  const now = cellsNow(verdict, at.sky, { hour, heading });
  return {
    view: {
      ...day,
      hour,
      heading,
      ...(now === undefined ? {} : { now }),
      casters: shadeNow(verdict, { hour, heading }),
    },
  };
}

export const answer: LaterJob<'array'>['answer'] = async (request, ready, { central, inSlices, stages }) => {
  const { sky, hour, heading } = request;
  const found = await inSlices(arrayViewSlices(central(ready), { sky, hour, heading }, stages));
  if (found === undefined) return undefined;
  if (found.view !== undefined) return { kind: 'array', view: found.view };
  return refused(
    'no light on single cells is known',
    'array',
    'describe the airframe and rows of cells on it, so that it can fly',
  );
};
