import {
  cellFlatness,
  libraryList,
  libraryName,
  librarySection,
  nacaSection,
  type SectionGeometry,
  TURBULENCE,
} from '@noonwing/engine/section';
import { designForFlats, type FlatsDesign } from '@noonwing/engine/section/flats';
import { writeSectionCoordinates } from '@noonwing/files';
import { type CommandModule, exampleText } from '../command.js';
import { type Attempt, type ExitCode, exitCode, ready, refuse } from '../exit.js';
import { type Options, typed } from '../input/plan-options.js';
import { type FlatsRequest, flatsRequest, type SectionRequest, sectionRequest } from '../input/section.js';
import { writeDrawing } from '../output/drawing.js';
import { jsonQuantity, jsonText } from '../output/json.js';
import { percent } from '../output/numbers.js';
import { refusalAnswer } from '../output/refusal.js';
import { tableLines, wrapped } from '../output/table.js';
import { writeText } from '../output/write-text.js';
import { checkRows, flatsData, flatsDrawing, flatsFindings } from '../report/flats.js';
import { heading, type Terminal } from '../terminal.js';

/** `noonwing section`: the shape of a section, and a shape for flat cells. */
export const command: CommandModule = {
  describe: (of) => {
    of.argument(
      '[section]',
      'such as NACA 3410, flat cells 3, a coordinate file, or a design file (its first wing station)',
    )
      .option('--list', 'names that a design file can use, with their shapes')
      .option('--chord <length>', 'chord that cell width and edge refer to', '250mm')
      .option('--cell <length>', 'width of a flat cell along the chord', '62mm')
      .option('--flats', 'lays out flats, thickness and camber for least drag under flat cells')
      .option('--count <number>', 'flats one behind the other; as many as fit where left out')
      .option('--edge <length>', 'height of cells and film over the skin; 0mm where they lie flush', '0.3mm')
      .option('--lift <number>', 'lift coefficient at which drag is to be least', '0.6')
      .option('--reynolds <number>', 'Reynolds number on the chord', '150000')
      .option('--moment <number>', 'moment coefficient not to be passed downwards; that of the start where left out')
      .option('--thickness <share>', 'least thickness over chord; that of the start under the cells where left out')
      .option('--air <words>', `turbulence: ${Object.keys(TURBULENCE).join(', ')}`, 'outdoors')
      .option('--tries <number>', 'shapes that are computed at most', '200')
      .option('--out <file>', 'writes the points, for "section: FILE" in a design file')
      .option('--json', 'for programs: every number with its unit')
      .option('--picture <file>', 'writes both shapes as a drawing (SVG), with --flats')
      .addHelpText(
        'after',
        exampleText(
          'noonwing section --list',
          'noonwing section "NACA 3410" --chord 250mm --cell 125mm',
          'noonwing section "NACA 3410" --flats --cell 62mm --lift 0.6 --reynolds 150000 --out flat.dat',
        ),
      );
  },
  run: async ({ args, options }, terminal) => {
    const json = options.json === true;
    if (options.list === true) {
      if (json) terminal.out(jsonText({ ok: true, sections: listData() }));
      else for (const line of listLines()) terminal.out(line);
      return exitCode.answer;
    }
    if (args[0] === undefined) {
      const lines = ['a section is expected, such as "NACA 3410"; noonwing section --list names those that are known'];
      return refusalAnswer(refuse(exitCode.wrongUsage, ...lines), terminal, json);
    }
    const answered = options.flats === true ? flats(args[0], options, terminal) : shape(args[0], options, terminal);
    return answered.ok ? answered.value : refusalAnswer(answered, terminal, json);
  },
};

/** Each family of the library with the shape of its example. */
const listed = () =>
  libraryList.flatMap(({ write, what, source }) => {
    const made = libraryName(write) === undefined ? nacaSection(write) : librarySection(write);
    return made.ok ? [{ write, what, source, section: made.value }] : [];
  });

const listCell = 0.25;

function listLines(): readonly string[] {
  const rows = listed().map(({ write, section }) => [
    write,
    percent(section.maximumThickness, 1),
    percent(section.maximumCamber, 1),
    section.area.toFixed(3),
    (Math.round(1000 * section.thinAirfoil.moment) / 1000 + 0).toFixed(3),
    percent(Math.abs(cellFlatness(section, listCell)?.flattest.bulge ?? 0), 2),
  ]);
  const head = ['section', 'thickness', 'camber', 'area', 'moment', 'flattest'];
  return [
    'Numbers and percentages of these names can be changed; "section: NAME" in a design file flies them.',
    '',
    ...tableLines({ head, rows, left: [0] }, ''),
    '',
    'Area / chord squared; moment about the quarter chord, without friction; flattest: least bulge of the skin over a flat cell of a',
    'quarter chord / chord.',
    '',
    ...listed().flatMap(({ write, what, source }) => wrapped(`${write}: ${what}. Source: ${source}.`, 100, '', '  ')),
    '',
    'Other sections are imported: name a file of points, x and y in any scale, once round or surface by surface.',
  ];
}

const listData = () =>
  listed().map(({ write, what, source, section }) => ({
    write,
    what,
    source,
    thickness: jsonQuantity(section.maximumThickness, 'ratio'),
    camber: jsonQuantity(section.maximumCamber, 'ratio'),
    area: jsonQuantity(section.area, 'ratio'),
    moment: jsonQuantity(section.thinAirfoil.moment, 'ratio'),
  }));

function shape(name: string, options: Options, terminal: Terminal): Attempt<ExitCode> {
  const request = sectionRequest(name, options);
  if (!request.ok) return request;
  const written = writePoints(options, request.value.geometry, terminal);
  if (!written.ok) return written;
  if (options.json === true) terminal.out(jsonText({ ok: true, ...shapeData(request.value) }));
  else for (const line of shapeLines(request.value, terminal)) terminal.out(line);
  return ready(exitCode.answer);
}

const degrees = (radians: number): string => `${((180 * radians) / Math.PI).toFixed(1)} deg`;
const millimetres = (length: number): string => `${(1000 * length).toFixed(1)} mm`;

/** Shape in words; what a flat cell has to bridge in lengths. */
function shapeLines({ geometry: g, chord, cell }: SectionRequest, terminal: Terminal): readonly string[] {
  const flatness = cellFlatness(g, cell / chord);
  const bridged =
    flatness === undefined
      ? `A flat cell of ${millimetres(cell)} does not lie on a chord of ${millimetres(chord)}.`
      : `Flat cell of ${millimetres(cell)} on a chord of ${millimetres(chord)}: the skin bulges over it by ${millimetres(flatness.flattest.bulge * chord)} where it is flattest (${percent(flatness.flattest.from)} to ${percent(flatness.flattest.to)} of the chord) and by ${millimetres(flatness.roundest.bulge * chord)} where it is roundest (from ${percent(flatness.roundest.from)}).`;
  const lines = [
    `Thickness ${percent(g.maximumThickness, 1)} of the chord at ${percent(g.maximumThicknessStation)}, camber ${percent(g.maximumCamber, 1)} at ${percent(g.maximumCamberStation)}, area ${g.area.toFixed(4)} of the chord squared (${(1e4 * g.area * chord * chord).toFixed(1)} cm2), nose radius ${percent(g.leadingEdgeRadius, 2)}, trailing edge ${percent(g.trailingEdgeThickness, 2)} thick.`,
    `Without friction: no lift at ${degrees(g.thinAirfoil.zeroLiftAngle)}, moment ${g.thinAirfoil.moment.toFixed(3)} about the quarter chord.`,
    bridged,
  ];
  return [heading(terminal, g.name), ...lines.flatMap((line) => wrapped(line, 100, ''))];
}

function shapeData({ geometry: g, chord, cell }: SectionRequest) {
  const ratio = (value: number) => jsonQuantity(value, 'ratio');
  const flatness = cellFlatness(g, cell / chord);
  const stretch = (one: { readonly from: number; readonly to: number; readonly bulge: number }) => ({
    from: ratio(one.from),
    to: ratio(one.to),
    bulge: jsonQuantity(one.bulge * chord, 'length'),
  });
  return {
    section: g.name,
    thickness: ratio(g.maximumThickness),
    thicknessStation: ratio(g.maximumThicknessStation),
    camber: ratio(g.maximumCamber),
    camberStation: ratio(g.maximumCamberStation),
    area: ratio(g.area),
    noseRadius: ratio(g.leadingEdgeRadius),
    trailingEdge: ratio(g.trailingEdgeThickness),
    zeroLiftAngle: jsonQuantity(g.thinAirfoil.zeroLiftAngle, 'angle'),
    moment: ratio(g.thinAirfoil.moment),
    ...(flatness === undefined ? {} : { flattest: stretch(flatness.flattest), roundest: stretch(flatness.roundest) }),
  };
}

function flats(name: string, options: Options, terminal: Terminal): Attempt<ExitCode> {
  const request = flatsRequest(name, options);
  if (!request.ok) return request;
  const designed = laidOut(request.value, terminal);
  if (!designed.ok) return designed;
  const written = writePoints(options, designed.value.section, terminal);
  if (!written.ok) return written;
  const picture = typed(options, 'picture');
  const drawn = picture === undefined ? written : writeDrawing(picture, flatsDrawing(request.value, designed.value));
  if (!drawn.ok) return drawn;
  if (options.json === true) {
    terminal.out(jsonText({ ok: true, ...flatsData(request.value, designed.value) }));
    return ready(exitCode.answer);
  }
  terminal.out(heading(terminal, designed.value.section.name));
  for (const finding of flatsFindings(request.value, designed.value))
    for (const line of wrapped(finding, 100, '')) terminal.out(line);
  terminal.out('');
  const head = ['condition', 'start under cells', 'for flat cells', 'gain'];
  for (const line of tableLines({ head, rows: checkRows(designed.value), left: [3] })) terminal.out(line);
  return ready(exitCode.answer);
}

function laidOut(request: FlatsRequest, terminal: Terminal): Attempt<FlatsDesign> {
  const { geometry, chord, cell, count, edge, reynolds, lift, critical, moment, thickness, tries } = request;
  const work = designForFlats({
    start: geometry,
    cell: cell / chord,
    ...(count === undefined ? {} : { count }),
    edge: edge / chord,
    reynolds,
    lift,
    critical,
    ...(moment === undefined ? {} : { leastMoment: moment }),
    ...(thickness === undefined ? {} : { leastThickness: thickness }),
    evaluations: tries,
  });
  for (;;) {
    const next = work.next();
    if (!next.done) {
      const { share, best } = next.value;
      terminal.progress(`shapes: ${percent(share)}, drag ${best.toFixed(4)}`);
      continue;
    }
    terminal.progress('');
    if (next.value.ok) return ready(next.value.value);
    return refuse(exitCode.unusableInput, `${geometry.name}: ${next.value.reason}; ${next.value.remedy}`);
  }
}

function writePoints(options: Options, section: SectionGeometry, terminal: Terminal): Attempt<undefined> {
  const path = typed(options, 'out');
  if (path === undefined) return ready(undefined);
  const { name, outlineX: x, outlineY: y } = section;
  const written = writeText(path, writeSectionCoordinates({ name, x, y }));
  if (!written.ok) return written;
  if (options.json !== true) terminal.note(`The points are in ${path}; write "section: ${path}" in the design file.`);
  return ready(undefined);
}
