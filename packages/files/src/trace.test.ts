import fastCheck from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseTrace } from './trace.js';

const read = (text: string) => {
  const outcome = parseTrace(text);
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome;
};

const rows = '0;3,05\n2,5;3,01\n5,0;2,6\n6,4;0,0';

describe('parseTrace', () => {
  it('reads voltages and currents in SI, by rising voltage, with the stated conditions', () => {
    const text = `# irradiance: 850 W/m2\n# cell temperature = 41 °C\nvoltage (V),current (mA)\n5.0,2600\n0,3050\n6.4,0\n2.5,3010`;
    expect(read(text)).toEqual({
      ok: true,
      value: {
        voltage: [0, 2.5, 5, 6.4],
        current: [3.05, 3.01, 2.6, 0],
        irradiance: 850,
        cellTemperature: 314.15,
        reachesShortCircuit: true,
        reachesOpenCircuit: true,
      },
      warnings: [],
    });
  });

  it('reads decimal commas, other names, and no heads; an assumed unit is said', () => {
    expect(read(`Spannung [V];Strom [A]\n${rows}`).value.current).toEqual([3.05, 3.01, 2.6, 0]);
    const bare = read(rows);
    expect(bare.value.voltage).toEqual([0, 2.5, 5, 6.4]);
    expect(bare.warnings.map((warning) => warning.code)).toContain('unit assumed');
    expect(bare.value).not.toHaveProperty('irradiance');
  });

  it('turns the signs of a load, and says so', () => {
    const outcome = read('U (V);I (A)\n0;-3,05\n-2,5;-3,01\n-5,0;-2,6\n-6,4;0,0');
    expect(outcome.value.current[0]).toBe(3.05);
    expect(outcome.value.voltage.at(-1)).toBe(6.4);
    expect(outcome.warnings.map((warning) => warning.code)).toEqual(['sign', 'sign of voltage']);
  });

  it('says where the trace does not reach, and where its current rises', () => {
    const part = read('U (V);I (A)\n2;3,0\n3;2,9\n4;3,2\n5;2,5');
    expect(part.value).toMatchObject({ reachesShortCircuit: false, reachesOpenCircuit: false });
    expect(part.warnings).toEqual([expect.objectContaining({ code: 'rising current', where: '4 V' })]);
  });

  it.each([
    ['no columns', 'a;b\n1;2', 'columns'],
    ['one column', '1\n2\n3', 'columns'],
    ['a wrong unit', `U (A);I (A)\n${rows}`, 'unit'],
    ['too few points', 'U (V);I (A)\n0;3\n1;2', 'no trace'],
    ['darkness', 'U (V);I (A)\n0;0\n1;0\n2;0\n3;0', 'no trace'],
    ['an empty file', '', 'empty'],
  ])('refuses %s', (_, text, code) => {
    expect(parseTrace(text)).toMatchObject({ ok: false, code });
  });

  it('never throws and gives rising voltages that are finite', () => {
    const number = fastCheck.double({ noNaN: true, noDefaultInfinity: true, min: -50, max: 50 });
    fastCheck.assert(
      fastCheck.property(fastCheck.array(fastCheck.tuple(number, number), { maxLength: 20 }), (pairs) => {
        const outcome = parseTrace(`sep=;\nU (V);I (A)\n${pairs.map((pair) => pair.join(';')).join('\n')}`);
        if (!outcome.ok) return outcome.reason !== '';
        const { voltage, current } = outcome.value;
        expect([...voltage, ...current].every(Number.isFinite)).toBe(true);
        expect(voltage.every((value, at) => at === 0 || value >= voltage[at - 1]!)).toBe(true);
        return true;
      }),
    );
  });
});
