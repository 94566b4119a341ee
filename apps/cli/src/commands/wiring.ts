import { wiringPlan as drawnPlan } from '@noonwing/drawing';
import { type WiringPlan, wiringPlan } from '@noonwing/verdict/wiring';
import { amps, microtesla, turned, wiringFinding, wiringPicture } from '@noonwing/verdict/wiring-words';
import { type CommandModule, exampleText } from '../command.js';
import { exitCode, refuse } from '../exit.js';
import { addCommonOptions, addPlanOptions, typed } from '../input/plan-options.js';
import { type Answered, answerForAircraft } from '../input/run.js';
import { writeDrawing } from '../output/drawing.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { warningLines } from '../report/aircraft-lines.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing wiring`: the wiring plan of the array, in words, as a drawing with --out. */
export const command: CommandModule = {
  describe: (of) => {
    addCommonOptions(addPlanOptions(of.argument('<design>', 'design file')))
      .option('--out <file>', 'writes the plan as a drawing (SVG), for the screen and for print')
      .addHelpText(
        'after',
        exampleText('noonwing wiring examples/alondra.yaml', 'noonwing wiring examples/alondra.yaml --out wiring.svg'),
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    const path = args[0]!;
    const answered = answerForAircraft(path, options, terminal.now());
    if (!answered.ok) return refusalAnswer(answered, terminal, json);
    const { model, plan: day } = answered.value.verdict.prepared;
    const plan = wiringPlan(model, day);
    if (plan === undefined) {
      const why = `${path}: the design has no array; describe its rows of cells`;
      return refusalAnswer(refuse(exitCode.unusableInput, why), terminal, json);
    }
    const out = typed(options, 'out');
    if (out !== undefined) {
      const written = writeDrawing(out, drawnPlan(pictureOf(plan, answered.value), { standalone: true, width: 900 }));
      if (!written.ok) return refusalAnswer(written, terminal, json);
    }
    if (json) terminal.out(jsonText({ ok: true, design: path, ...planData(plan) }));
    else {
      terminal.out(heading(terminal, answered.value.design.aircraft.name));
      for (const line of planLines(plan, terminal)) terminal.out(line);
      if (out !== undefined) terminal.note(`The drawing is in ${out}.`);
    }
    return exitCode.answer;
  },
};

const pictureOf = (plan: WiringPlan, { verdict, design }: Answered) =>
  wiringPicture(plan, { aircraft: design.aircraft.name, battery: verdict.prepared.model.battery });

function planLines(plan: WiringPlan, terminal: Terminal): readonly string[] {
  const title = (text: string) => ['', heading(terminal, text)];
  const rows = [...plan.strings, ...plan.outputs].map((run) => [
    run.name,
    'cells' in run ? `${run.cells}${run.parallel > 1 ? ` x ${run.parallel}` : ''}` : run.topology,
    amps(run.current),
    `${run.voltage.toFixed(1)} V`,
    `AWG ${run.gauge}`,
    `${run.length.toFixed(2)} m`,
    `${run.loss.toFixed(2)} W (${(100 * run.lossShare).toFixed(1)} %)`,
    `${(1000 * run.mass).toFixed(0)} g`,
    run.connector,
    run.fuse === undefined ? 'no fuse' : `fuse ${run.fuse} A`,
  ]);
  const head = ['', 'cells', 'current', 'up to', 'wire', 'one way', 'lost', 'mass', 'connector', ''];
  const compass = plan.compass.map(({ where, paired, pairedDeviation, apart, apartDeviation }) => [
    where,
    `${microtesla(paired)}, ${turned(pairedDeviation)}`,
    `${microtesla(apart)}, ${turned(apartDeviation)}`,
  ]);
  return [
    ...wrapped(`${wiringFinding(plan).charAt(0).toUpperCase()}${wiringFinding(plan).slice(1)}`, 100, ''),
    ...title('Strings, then converters to the battery'),
    ...tableLines({ head, rows, left: [0, 8, 9] }),
    ...(compass.length === 0
      ? []
      : [
          ...title('At the compass'),
          ...tableLines({ head: ['', 'out and return 10 mm apart', '100 mm apart'], rows: compass }),
        ]),
    ...title('In this order'),
    ...plan.order.map((step, k) => `  ${k + 1}. ${step}`),
    ...warningLines(plan.warnings),
    '',
    ...wrapped(`Take care: ${plan.cautions.join(' ')}`, 100, ''),
  ];
}

function planData(plan: WiringPlan) {
  const run = (of: WiringPlan['outputs'][number] | WiringPlan['strings'][number]) => ({
    name: of.name,
    ...('cells' in of
      ? {
          cells: jsonQuantity(of.cells, 'count'),
          parallel: jsonQuantity(of.parallel, 'count'),
          cellsPerDiode: jsonQuantity(of.cellsPerDiode, 'count'),
          rows: of.rows,
          converter: of.converter,
        }
      : { topology: of.topology }),
    current: jsonQuantity(of.current, 'current'),
    voltage: jsonQuantity(of.voltage, 'voltage'),
    gauge: `AWG ${of.gauge}`,
    length: jsonQuantity(of.length, 'length'),
    resistance: jsonQuantity(of.resistance, 'resistance'),
    loss: jsonQuantity(of.loss, 'power'),
    mass: jsonQuantity(of.mass, 'mass'),
    connector: of.connector,
    ...(of.fuse === undefined ? {} : { fuse: jsonQuantity(of.fuse, 'current') }),
    fuseWhy: of.fuseWhy,
  });
  return {
    finding: wiringFinding(plan),
    strings: plan.strings.map(run),
    outputs: plan.outputs.map(run),
    compass: plan.compass.map(({ where, paired, pairedDeviation, apart, apartDeviation, clearance }) => ({
      where,
      paired: { value: paired, unit: 'T' },
      pairedDeviation: jsonQuantity(pairedDeviation, 'angle'),
      apart: { value: apart, unit: 'T' },
      apartDeviation: jsonQuantity(apartDeviation, 'angle'),
      clearance: jsonQuantity(clearance, 'length'),
    })),
    mass: jsonQuantity(plan.mass, 'mass'),
    order: plan.order,
    cautions: plan.cautions,
    warnings: plan.warnings.map(({ code, message, where }) => ({
      code,
      message,
      ...(where === undefined ? {} : { where }),
    })),
  };
}
