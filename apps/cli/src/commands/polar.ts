import { type CurveSet, comparedCurves, type Drawing } from '@noonwing/drawing';
import type { Problem } from '@noonwing/engine';
import { sectionDragAtLift, sectionModel, TURBULENCE, type Turbulence } from '@noonwing/engine/section';
import {
  COMPUTED_LIFT_SPREAD,
  type CoveringCost,
  computedDragSpread,
  coveringCost,
  isComputable,
  preparedOutline,
  risingBranch,
  type SectionFlow,
  type SectionPolar,
  solveAtLift,
  sweepPolar,
} from '@noonwing/engine/section/viscous';
import { type CommandModule, exampleText } from '../command.js';
import { type Attempt, exitCode, ready, refuse } from '../exit.js';
import { type MeasuredInput, readMeasured } from '../input/measured-polar.js';
import { typed } from '../input/plan-options.js';
import { type PolarRequest, polarRequest, usualCovering } from '../input/polar.js';
import { type StoreUpdate, storeBeside, updatePolarStore } from '../input/polar-store.js';
import { writeDrawing } from '../output/drawing.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { type TextTable, tableLines, wrapped } from '../output/table.js';
import {
  besideMeasured,
  measuredData,
  measuredDrawing,
  measuredWords,
  type RunBeside,
} from '../report/measured-polar.js';
import { plateData, plateDrawing, plateFindings, platePolar, plateTable } from '../report/plate-polar.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing polar`: what a section does at a Reynolds number, computed with its boundary layer. */
export const command: CommandModule = {
  describe: (of) => {
    of.argument('<section>', 'such as NACA 3410, a coordinate file, or a design file (its first wing station)')
      .option('--reynolds <number>', 'Reynolds number on the chord', '200000')
      .option('--lift <number>', 'lift coefficient of the design point', '0.6')
      .option('--air <words>', `turbulence: ${Object.keys(TURBULENCE).join(', ')}`, 'outdoors')
      .option('--cells <stretch>', 'cells on the upper surface, such as 10%..80% of the chord')
      .option('--chord <length>', 'chord that edge and cell width refer to', usualCovering.chord)
      .option('--edge <length>', 'height of cells and film over the skin; 0mm in a recess', usualCovering.edge)
      .option(
        '--cell <length>',
        'width of a rigid flat cell along the chord; 0mm where cells follow the surface',
        usualCovering.cell,
      )
      .option('--measured <file>', 'measured points to lay over the computed polar (docs/measured-polars.md)')
      .option(
        '--store [file]',
        'keeps polars of every section of a design, by default in polars.json beside it, for every other command',
      )
      .option('--json', 'for programs: every number with its unit')
      .option('--picture <file>', 'writes drag against lift as a drawing (SVG)')
      .addHelpText(
        'after',
        exampleText('noonwing polar "NACA 3410" --reynolds 150000', 'noonwing polar "NACA 3410" --cells 10%..80%'),
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const points = typed(options, 'measured');
    const measured = points === undefined ? ready(undefined) : readMeasured(points);
    if (!measured.ok) return refusalAnswer(measured, terminal, json);
    if (options.store !== undefined) {
      const store = typed(options, 'store') ?? storeBeside(args[0]!);
      const updated = updatePolarStore(args[0]!, store, measured.value, (name) => {
        if (!json) terminal.note(`Computing ${name} ...`);
      });
      if (!updated.ok) return refusalAnswer(updated, terminal, json);
      if (json) terminal.out(storeJson(store, updated.value));
      else for (const line of storeLines(store, updated.value)) terminal.out(line);
      return exitCode.answer;
    }
    const request = polarRequest(args[0]!, options);
    if (!request.ok) return refusalAnswer(request, terminal, json);
    const said = saidOf(request.value, measured.value);
    if (!said.ok) return refusalAnswer(said, terminal, json);
    const { data, found, table, drawing } = said.value;
    const out = typed(options, 'picture');
    if (out !== undefined) {
      const written = writeDrawing(out, drawing());
      if (!written.ok) return refusalAnswer(written, terminal, json);
    }
    if (json) terminal.out(jsonText({ ok: true, ...data() }));
    else for (const line of polarText(request.value, found(), table(), terminal)) terminal.out(line);
    if (out !== undefined && !json) terminal.note(`The drawing is in ${out}.`);
    return exitCode.answer;
  },
};

/** An answer as programs, people and eyes have it. */
interface Said {
  readonly data: () => object;
  readonly found: () => readonly string[];
  readonly table: () => TextTable;
  readonly drawing: () => Drawing;
}

/** What a section does: computed, or by the formulas of plates where it is one, a step or very thin. */
function saidOf(request: PolarRequest, measured: MeasuredInput | undefined): Attempt<Said> {
  if (!isComputable(request.geometry)) {
    const plate = platePolar(request, measured?.runs ?? [], measured?.notes ?? []);
    return ready({
      data: () => plateData(request, plate),
      found: () => plateFindings(request, plate),
      table: () => plateTable(plate),
      drawing: () => plateDrawing(request, plate),
    });
  }
  const answered = computePolar(request, measured);
  if (!answered.ok) return answered;
  const { value } = answered;
  return ready({
    data: () => polarData(request, value),
    found: () => findings(request, value),
    table: () => polarRows(value),
    drawing: () => polarDrawing(request, value),
  });
}

/** Heading, findings and a table. */
const polarText = (
  { geometry, reynolds }: PolarRequest,
  found: readonly string[],
  table: TextTable,
  terminal: Terminal,
): readonly string[] => [
  heading(terminal, `${geometry.name} at Reynolds number ${reynolds.toFixed(0)}`),
  ...found.flatMap((line) => wrapped(line, 100, '')),
  '',
  ...tableLines(table),
];

function storeJson(store: string, { measured, ...update }: StoreUpdate): string {
  const points = measured && { name: measured.name, points: jsonQuantity(measured.points, 'count') };
  return jsonText({ ok: true, store, ...update, ...(points === undefined ? {} : { measured: points }) });
}

function storeLines(path: string, { computed, copied, kept, left, measured }: StoreUpdate): readonly string[] {
  const line = (words: string, names: readonly string[]) =>
    names.length === 0 ? [] : wrapped(`${words}: ${names.join('; ')}.`, 100, '');
  return [
    ...line('Computed', computed),
    ...line('Copied from the polars that come with noonwing', copied),
    ...line('In the store already', kept),
    ...line('Left to the first estimate, beyond this model', left),
    ...(measured === undefined ? [] : [`Measured: ${measured.points} points are kept for ${measured.name}.`]),
    `The polars are in ${path}.`,
  ];
}

interface PolarAnswer {
  readonly polar: SectionPolar;
  readonly point?: SectionFlow;
  readonly cost?: CoveringCost;
  readonly measured: readonly RunBeside[];
  readonly notes: readonly string[];
}

const criticalOf = (air: Turbulence): number => TURBULENCE[air].critical;

function computePolar(request: PolarRequest, measured: MeasuredInput | undefined): Attempt<PolarAnswer> {
  const { geometry, reynolds, lift, covering } = request;
  const input = { reynolds, critical: criticalOf(request.air) };
  const prepared = preparedOutline(geometry.outlineX, geometry.outlineY);
  if (!prepared.ok) return refuse(exitCode.unusableInput, `${geometry.name}: ${prepared.reason}; ${prepared.remedy}`);
  const polar = sweepPolar(prepared.value, input);
  if (risingBranch(polar).length < 4) {
    const why = `${geometry.name}: the flow has not converged at Reynolds number ${reynolds}; Reynolds numbers below 40000 are beyond this model`;
    return refuse(exitCode.unusableInput, why);
  }
  const point = solveAtLift(prepared.value, lift, input);
  const cost =
    covering === undefined
      ? undefined
      : coveringCost(geometry.outlineX, geometry.outlineY, covering, { ...input, lift });
  return ready({
    polar,
    ...(point.ok ? { point: point.value } : {}),
    ...(cost?.ok ? { cost: cost.value } : {}),
    measured: besideMeasured((of) => sweepPolar(prepared.value, { ...input, reynolds: of }), measured?.runs ?? []),
    notes: [
      ...new Set([point, ...(cost ? [cost] : [])].flatMap((one) => (one.ok ? [] : [whyNot(one, lift, polar)]))),
      ...(measured?.notes ?? []),
    ],
  });
}

/** Why nothing is said of the design point. */
function whyNot({ reason, remedy }: Problem, lift: number, polar: SectionPolar): string {
  const branch = risingBranch(polar);
  const [least, most] = [branch[0]!.lift, branch.at(-1)!.lift];
  if (lift < least || lift > most)
    return `Lift ${lift.toFixed(2)} is beyond what it reaches, ${least.toFixed(2)} to ${most.toFixed(2)}: nothing is said of it.`;
  return `At lift ${lift.toFixed(2)} ${reason}: ${remedy}.`;
}

const degrees = (radians: number): string => `${((180 * radians) / Math.PI).toFixed(1)} deg`;
const coefficient = (value: number): string => value.toFixed(4);

/** Band of a computed drag coefficient that should hold the truth nine times in ten. */
function dragBand(drag: number, reynolds: number) {
  const factor = Math.exp(1.645 * computedDragSpread(reynolds));
  return { value: drag, low: drag / factor, high: drag * factor };
}

function layerWords({ upper, lower }: SectionFlow): string {
  const laminar = `laminar to ${percent(upper.transition)} of the chord above and ${percent(lower.transition)} below`;
  if (upper.separation === undefined) return `${laminar}; attached above`;
  const from = `above it separates at ${percent(upper.separation)}`;
  return upper.reattachment === undefined
    ? `${laminar}; ${from} and stays so`
    : `${laminar}; ${from} and comes back at ${percent(upper.reattachment)}`;
}

function costWords(cost: CoveringCost, request: PolarRequest): string {
  const change = cost.ratio - 1;
  const edge = (name: string, { stepReynolds, trips, growth }: CoveringCost['front']) =>
    `${name} edge: Reynolds number of the step ${stepReynolds.toFixed(0)}, ${trips ? 'it makes the layer turbulent there (400, range 200 to 900)' : growth > 0 ? `it adds ${growth.toFixed(1)} to the growth of disturbances` : stepReynolds > 0 ? 'in turbulent flow' : 'flush'}`;
  const words =
    Math.abs(change) < 0.005 ? 'costs nothing' : change > 0 ? `costs ${percent(change)}` : `saves ${percent(-change)}`;
  return `Covering it with cells ${words} of its drag at lift ${request.lift.toFixed(2)}: ${coefficient(cost.bare.drag)} bare, ${coefficient(cost.covered.drag)} covered. ${edge('Front', cost.front)}; ${edge('rear', cost.rear)}.`;
}

function findings(request: PolarRequest, { polar, point, cost, measured, notes }: PolarAnswer): readonly string[] {
  const branch = risingBranch(polar);
  const least = branch.reduce((a, b) => (b.drag < a.drag ? b : a));
  const best = branch.reduce((a, b) => (b.lift / b.drag > a.lift / a.drag ? b : a));
  const top = branch[branch.length - 1]!;
  const half = 1.645 * COMPUTED_LIFT_SPREAD * top.lift;
  const holes =
    polar.holes.length === 0 ? [] : [`Not converged, and left out, at ${polar.holes.map(degrees).join(', ')}.`];
  const band = point && dragBand(point.drag, polar.reynolds);
  return [
    ...(cost ? [costWords(cost, request)] : []),
    ...(point && band
      ? [
          `At lift ${request.lift.toFixed(2)}, ${degrees(point.alpha)}: drag ${coefficient(band.value)} (${coefficient(band.low)} to ${coefficient(band.high)}), ${percent(point.frictionDrag / point.drag)} of it friction; ${layerWords(point)}.`,
        ]
      : []),
    `Least drag ${coefficient(least.drag)} at lift ${least.lift.toFixed(2)}; best lift / drag ${(best.lift / best.drag).toFixed(0)} at lift ${best.lift.toFixed(2)}; greatest lift ${top.lift.toFixed(2)} (${(top.lift - half).toFixed(2)} to ${(top.lift + half).toFixed(2)}) at ${degrees(top.alpha)}.`,
    ...measuredWords(measured),
    `Air: ${request.air}, disturbances grow to N ${criticalOf(request.air)} ± ${TURBULENCE[request.air].spread} before the layer is turbulent.`,
    ...holes,
    ...notes,
  ];
}

/** Whether an incidence is shown in the table, which leaves out the halves between. */
const isWholeDegree = (alpha: number): boolean => Math.abs(Math.sin(alpha * 180)) < 0.05;

const polarRows = ({ polar }: PolarAnswer): TextTable => ({
  head: ['incidence', 'lift', 'drag', 'moment', 'laminar above', 'laminar below'],
  rows: polar.points
    .filter(({ alpha }) => isWholeDegree(alpha))
    .map((p) => [
      `${Math.round((180 * p.alpha) / Math.PI)} deg`,
      p.lift.toFixed(3),
      coefficient(p.drag),
      p.moment.toFixed(3),
      percent(p.upperTransition),
      percent(p.lowerTransition),
    ]),
});

const flowData = (flow: SectionFlow) => ({
  incidence: jsonQuantity(flow.alpha, 'angle'),
  lift: jsonQuantity(flow.lift, 'ratio'),
  drag: jsonQuantity(flow.drag, 'ratio'),
  frictionDrag: jsonQuantity(flow.frictionDrag, 'ratio'),
  moment: jsonQuantity(flow.moment, 'ratio'),
  upperTransition: jsonQuantity(flow.upper.transition, 'ratio'),
  lowerTransition: jsonQuantity(flow.lower.transition, 'ratio'),
  ...(flow.upper.separation === undefined ? {} : { separation: jsonQuantity(flow.upper.separation, 'ratio') }),
  ...(flow.upper.reattachment === undefined ? {} : { reattachment: jsonQuantity(flow.upper.reattachment, 'ratio') }),
});

function polarData(request: PolarRequest, { polar, point, cost, measured, notes }: PolarAnswer) {
  return {
    section: request.geometry.name,
    reynolds: jsonQuantity(polar.reynolds, 'count'),
    air: request.air,
    dragUncertainty: jsonQuantity(computedDragSpread(polar.reynolds), 'ratio'),
    ...(point ? { designPoint: flowData(point) } : {}),
    ...(cost ? { covered: { ...flowData(cost.covered), dragRatio: jsonQuantity(cost.ratio, 'ratio') } } : {}),
    points: polar.points.map((p) => ({
      incidence: jsonQuantity(p.alpha, 'angle'),
      lift: jsonQuantity(p.lift, 'ratio'),
      drag: jsonQuantity(p.drag, 'ratio'),
      moment: jsonQuantity(p.moment, 'ratio'),
      upperTransition: jsonQuantity(p.upperTransition, 'ratio'),
      lowerTransition: jsonQuantity(p.lowerTransition, 'ratio'),
    })),
    ...(measured.length === 0 ? {} : { measured: measuredData(measured) }),
    notConverged: polar.holes.map((hole) => jsonQuantity(hole, 'angle')),
    notes,
  };
}

/** Drag against lift, computed, with what was measured or by the first estimate. */
function polarDrawing(request: PolarRequest, { polar, measured }: PolarAnswer): Drawing {
  if (measured.length > 0) return measuredDrawing(request.geometry.name, measured);
  const branch = risingBranch(polar);
  const estimate = sectionModel(request.geometry);
  const curve = (drag: (lift: number, computed: number) => number): readonly CurveSet[] => [
    { id: 'drag', label: 'drag', points: branch.map((p) => [p.lift, drag(p.lift, p.drag)]) },
  ];
  return comparedCurves(
    {
      question: `What drag does ${request.geometry.name} have at Reynolds number ${polar.reynolds.toFixed(0)}?`,
      x: { label: 'lift coefficient', unit: '' },
      y: { label: 'drag coefficient', unit: '', decimals: 4 },
      a: { name: 'computed', curves: curve((_, computed) => computed) },
      b: { name: 'first estimate', curves: curve((lift) => sectionDragAtLift(estimate, lift, polar.reynolds).value) },
    },
    { standalone: true, width: 720 },
  );
}
