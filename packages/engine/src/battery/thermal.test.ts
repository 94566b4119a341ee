import { describe, expect, it } from 'vitest';
import { stepCellTemperature, typicalCellThermal } from './thermal.js';

describe('stepCellTemperature', () => {
  const thermal = typicalCellThermal(0.047);
  const at = { temperature: 263, ambient: 263, cellLoss: 0.1, duration: 60 };

  it('ends at ambient + loss / conductance', () => {
    const end = stepCellTemperature(thermal, { ...at, duration: 1e6 });
    expect(end).toBeCloseTo(263 + 0.1 / thermal.conductance, 9);
  });

  it('one step equals many (exact update), and rest changes nothing', () => {
    let temperature = 263;
    for (let i = 0; i < 60; i++) temperature = stepCellTemperature(thermal, { ...at, temperature, duration: 60 });
    expect(temperature).toBeCloseTo(stepCellTemperature(thermal, { ...at, duration: 3600 }), 9);
    expect(stepCellTemperature(thermal, { ...at, cellLoss: 0 })).toBe(263);
  });

  it('without cooling all loss stays in the cell: 47 J/K, 0.1 W, 60 s', () => {
    const sealed = { ...thermal, conductance: 0 };
    expect(stepCellTemperature(sealed, at) - 263).toBeCloseTo(6 / 47, 9);
  });

  it('refuses a cell without mass', () => {
    expect(() => typicalCellThermal(0)).toThrow(RangeError);
    expect(() => stepCellTemperature({ heatCapacity: 0, conductance: 1 }, at)).toThrow(RangeError);
  });
});
