import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellString, evenDiodes } from './cell-string.js';
import { plateHeatTransfer, rowHeatTransfer } from './cell-temperature.js';
import { type Converter, convertedPower, neededInput, stringSource } from './converter.js';
import { converterOutput } from './converter-output.js';
import { compassDeviation, longWireField, type WirePiece, wireField, wirePairField } from './magnetic.js';
import { parallelSource } from './parallel-source.js';
import { backContactBreakdown, backContactCell } from './reference.js';
import { stringCurrentAtVoltage, stringOpenCircuitVoltage } from './string.js';
import { parallelMaxima, stringMaxima } from './string-maximum.js';
import type { Tracker } from './tracker.js';
import { climbedMaximum, trackerCourse } from './tracker-course.js';
import type { CellParameters } from './translate.js';

const cell: CellParameters = { ...backContactCell, breakdown: backContactBreakdown };
const stringIn = (first: number, rest: number, span = 3) =>
  cellString(
    { cell, diodes: evenDiodes(12, span), seriesResistance: 0.02 },
    Array.from({ length: 12 }, (_, k) => ({ irradiance: k === 0 ? first : rest, temperature: 300 })),
  );
const steady = stringIn(1000, 1000);
const climber: Tracker = { method: 'perturb and observe', step: 0.05, period: 0.05 };

describe('trackers in steady light', () => {
  it('climb to the top within the ripple of their steps', () => {
    const { share, power, maximum } = trackerCourse({ tracker: climber, stringAt: () => steady, duration: 20 });
    expect(power.at(-1)! / maximum.at(-1)!).toBeGreaterThan(0.995);
    expect(share).toBeGreaterThan(0.95);
  });

  it('never take more than there is', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<Tracker>(
          climber,
          { method: 'fixed voltage', voltage: 6 },
          { method: 'fraction of open circuit', fraction: 0.8, period: 3, pause: 0.3 },
          { method: 'sweep', period: 3, duration: 0.5 },
        ),
        fc.double({ min: 100, max: 1000, noNaN: true }),
        (tracker, first) => {
          const string = stringIn(first, 900);
          const { power, maximum } = trackerCourse({ tracker, stringAt: () => string, duration: 6 });
          for (let k = 0; k < power.length; k++) expect(power[k]!).toBeLessThanOrEqual(maximum[k]! * (1 + 1e-6));
        },
      ),
      { numRuns: 20 },
    );
  });

  it('stay inside the window of the converter', () => {
    const { voltage } = trackerCourse({
      tracker: { method: 'fixed voltage', voltage: 7.5 },
      stringAt: () => steady,
      duration: 1,
      window: { low: 0, high: 6 },
    });
    expect(voltage.at(-1)).toBeCloseTo(6, 6);
  });
});

describe('strings side by side on one tracker', () => {
  const [sunny, dull] = [stringIn(1000, 1000, 0), stringIn(500, 500, 0)];

  it('as one source give within 5e-4 what every one of their maxima is', () => {
    const source = parallelSource([{ strings: [sunny, dull] }]);
    const [exact] = parallelMaxima({ strings: [sunny, dull], blockingVoltage: 0 });
    expect(source.maximum.power / exact!.power).toBeCloseTo(1, 3.3);
    expect(source.shortCircuitCurrent).toBeCloseTo(
      stringCurrentAtVoltage(sunny, 0) + stringCurrentAtVoltage(dull, 0),
      9,
    );
    // Without blocking diodes the dull one takes current above its own open circuit and pulls the other down.
    expect(source.openCircuitVoltage).toBeLessThan(stringOpenCircuitVoltage(sunny));
    expect(source.openCircuitVoltage).toBeGreaterThan(stringOpenCircuitVoltage(dull));
    const guarded = parallelSource([{ strings: [sunny, dull], blockingVoltage: 0 }]);
    expect(guarded.openCircuitVoltage).toBeCloseTo(stringOpenCircuitVoltage(sunny), 9);
  });

  it('behind diodes of their own give less by the drop, and nothing in the dark', () => {
    const guarded = parallelSource([{ strings: [sunny], blockingVoltage: 0.4 }, { strings: [dull] }]);
    const bare = parallelSource([{ strings: [sunny] }, { strings: [dull] }]);
    expect(guarded.maximum.power).toBeLessThan(bare.maximum.power);
    expect(guarded.currentAt(3)).toBeCloseTo(stringCurrentAtVoltage(sunny, 3.4) + stringCurrentAtVoltage(dull, 3), 2);
    expect(parallelSource([{ strings: [stringIn(0, 0, 0)] }]).maximum.power).toBe(0);
    expect(parallelSource([]).currentAt(1)).toBe(0);
  });

  it('are tracked together: one of them in the shade costs its own light alone', () => {
    const turning = parallelSource([{ strings: [sunny, dull] }]);
    const { share, available } = trackerCourse({ tracker: climber, stringAt: () => turning, duration: 10 });
    expect(available).toBeCloseTo(turning.maximum.power, 9);
    expect(share).toBeGreaterThan(0.9);
  });
});

describe('trackers caught and freed', () => {
  const shaded = stringIn(200, 1000);

  it('hang on the local maximum by hill climbing from open circuit, where a sweep finds the greater one', () => {
    const hung = trackerCourse({ tracker: climber, stringAt: () => shaded, duration: 10 });
    const free = trackerCourse({
      tracker: { method: 'sweep', period: 5, duration: 0.4 },
      stringAt: () => shaded,
      duration: 10,
    });
    expect(hung.caught).toBe(1);
    expect(free.caught).toBeLessThan(0.2);
    expect(free.share).toBeGreaterThan(2 * hung.share);
  });

  it('rest on the hill on which they start', () => {
    const maxima = stringMaxima(shaded);
    const at = (v: number) => v * stringCurrentAtVoltage(shaded, v);
    expect(climbedMaximum(maxima, at, stringOpenCircuitVoltage(shaded))).toEqual(maxima[1]);
    expect(climbedMaximum(maxima, at, maxima[0]!.voltage - 0.3)).toEqual(maxima[0]);
    expect(climbedMaximum([], at, 1)).toBeUndefined();
  });

  it('lose more the slower they are while the light turns', () => {
    const turning = (time: number) => stringIn(500 + 400 * Math.sin(time), 500 + 400 * Math.sin(time), 0);
    const share = (timeConstant: number) =>
      trackerCourse({ tracker: { ...climber, step: 0.1 }, stringAt: turning, duration: 12, step: 0.02, timeConstant })
        .share;
    expect(share(0.02)).toBeGreaterThan(share(3));
  });
});

describe('converter: loss by ratio, start voltage, stop', () => {
  const loss = { fixed: 0.2, perAmpere: 0.1, resistance: 0.05, inputResistance: 0.05 };

  it('gives back the input that an output took', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 80, noNaN: true }),
        fc.double({ min: 6, max: 20, noNaN: true }),
        (input, voltage) => {
          const output = convertedPower(loss, input, 14.8, voltage);
          if (output > 0 && 0.05 * 4 * input < voltage ** 2)
            expect(neededInput(loss, output, 14.8, voltage)).toBeCloseTo(input, 6);
        },
      ),
    );
    expect(convertedPower(loss, 40, 14.8, 6)).toBeLessThan(convertedPower(loss, 40, 14.8, 12));
  });

  const converter: Converter = {
    topology: 'boost',
    loss,
    limits: { startVoltage: 6, outputVoltage: 12.5 },
    tracking: { method: 'maximum power', efficiency: 1 },
    standbyPower: 0.05,
  };

  it('waits below its start voltage and stops at its output voltage; what is there adds up', () => {
    const at = (light: number, batteryVoltage: number) =>
      converterOutput({ converter, source: stringSource(stringIn(light, light)), batteryVoltage });
    expect(at(1, 12).limitedBy).toBe('too little light to run the converter');
    expect(at(800, 12.6).limitedBy).toBe('the battery accepts no more');
    const { power, losses } = at(800, 11.1);
    const source = stringSource(stringIn(800, 800));
    expect(power + losses.tracking + losses.conversion + losses.unused).toBeCloseTo(source.maximum.power, 6);
  });
});

describe('rows behind each other', () => {
  const flow = { air: { temperature: 298.15, pressure: 101325 }, airspeed: 10, length: 0.25, laminarFraction: 0.4 };

  it('share the heat transfer of the whole plate', () => {
    const ahead = plateHeatTransfer({ ...flow, length: 0.125, laminarFraction: 0.8 }, 320);
    const behind = rowHeatTransfer({ ...flow, from: 0.125 }, 320);
    expect((ahead + behind) / 2).toBeCloseTo(plateHeatTransfer(flow, 320), 9);
    expect(rowHeatTransfer(flow, 320)).toBe(plateHeatTransfer(flow, 320));
  });

  it('are cooled less one behind the other in laminar flow, better behind the transition', () => {
    const laminar = { ...flow, laminarFraction: 1 };
    expect(rowHeatTransfer({ ...laminar, from: 0.125 }, 320)).toBeLessThan(
      plateHeatTransfer({ ...laminar, length: 0.125 }, 320),
    );
    const first = plateHeatTransfer({ ...flow, length: 0.1, laminarFraction: 1 }, 320);
    expect(rowHeatTransfer({ ...flow, from: 0.1 }, 320)).toBeGreaterThan(first);
  });

  it('keep natural convection where the air hardly moves, however the forced part is shared out', () => {
    for (const airspeed of [0, 0.05, 0.2, 0.5, 1]) {
      const natural = plateHeatTransfer({ ...flow, airspeed: 0 }, 330);
      expect(rowHeatTransfer({ ...flow, airspeed, from: 0.2 }, 330)).toBeGreaterThanOrEqual(natural);
    }
  });
});

describe('field of wires', () => {
  const piece = (from: WirePiece['from'], to: WirePiece['to'], current: number): WirePiece => ({ from, to, current });

  it('of a long piece is that of an endless wire', () => {
    const field = wireField([piece([-100, 0, 0], [100, 0, 0], 5)], [0, 0.1, 0]);
    expect(field[2]).toBeCloseTo(longWireField(5, 0.1), 10);
    expect(Math.hypot(field[0], field[1])).toBe(0);
  });

  it('of a pair is the difference, and vanishes as the wires meet', () => {
    const pair = [piece([-100, 0, 0], [100, 0, 0], 5), piece([100, -0.01, 0], [-100, -0.01, 0], 5)];
    expect(wireField(pair, [0, 0.1, 0])[2]).toBeCloseTo(wirePairField(5, 0.1, 0.01), 10);
    expect(wirePairField(5, 0.1, 0)).toBe(0);
  });

  it('in the middle of a square loop is the textbook value', () => {
    // 2 sqrt(2) mu0 I / (pi a), from memory.
    const corners = [
      [0, 0, 0],
      [1, 0, 0],
      [1, 1, 0],
      [0, 1, 0],
    ] as const;
    const loop = corners.map((from, k) => piece(from, corners[(k + 1) % 4]!, 1));
    expect(wireField(loop, [0.5, 0.5, 0])[2]).toBeCloseTo(2 * Math.SQRT2 * 4e-7, 12);
    expect(wireField([piece([0, 0, 0], [0, 0, 0], 9)], [1, 0, 0])).toEqual([0, 0, 0]);
  });

  it('turns a compass by its arc sine', () => {
    expect(compassDeviation(12.5e-6, 25e-6)).toBeCloseTo(Math.PI / 6, 12);
    expect(compassDeviation(30e-6, 25e-6)).toBe(Math.PI / 2);
  });
});
