import { describe, expect, it } from 'vitest';
import { BATTERY_CELLS, CELLS, CONVERTERS, type Entry, MATERIALS, MOTORS, PROPELLERS } from './index.js';

const entries = Object.entries<Entry>({
  ...CELLS,
  ...BATTERY_CELLS,
  ...MOTORS,
  ...PROPELLERS,
  ...CONVERTERS,
  ...MATERIALS,
});

describe('the parts library', () => {
  it('names a source and a use for each part', () => {
    for (const [name, entry] of entries) {
      expect(entry.source, name).not.toBe('');
      expect(entry.help, name).not.toBe('');
      if (entry.provenance === 'from memory') expect(entry.source, name).toContain('from memory');
      if (entry.provenance === 'common practice') expect(entry.source, name).toMatch(/no source|no converter/);
    }
  });

  it('holds finite numbers with uncertainties that are not negative', () => {
    const visit = (value: unknown, name: string): void => {
      if (typeof value === 'number') expect(Number.isFinite(value), name).toBe(true);
      if (typeof value === 'object' && value !== null) {
        if ('sigma' in value) expect(value.sigma as number, name).toBeGreaterThanOrEqual(0);
        for (const part of Object.values(value)) visit(part, name);
      }
    };
    for (const [name, entry] of entries) visit(entry, name);
  });

  it('has cells whose sheet a diode could have: fill factor 0.6 to 0.85, efficiency 10 to 25 %', () => {
    for (const [name, cell] of Object.entries(CELLS)) {
      const power = cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value;
      const fill = power / (cell.shortCircuitCurrent.value * cell.openCircuitVoltage.value);
      expect(fill, name).toBeGreaterThan(0.6);
      expect(fill, name).toBeLessThan(0.85);
      expect(power / (1000 * cell.area.value), name).toBeGreaterThan(0.1);
      expect(power / (1000 * cell.area.value), name).toBeLessThan(0.25);
      expect(cell.voltageCoefficient.value, name).toBeLessThan(0);
      expect(cell.area.value, name).toBeLessThanOrEqual(cell.length.value * cell.width.value);
    }
  });

  it('has the reference cell of the engine: 3.422 W at 25 degC', () => {
    const cell = CELLS['back-contact 125 mm'];
    expect(cell.maximumPowerCurrent.value * cell.maximumPowerVoltage.value).toBeCloseTo(3.422, 9);
  });

  it('has a 182 mm cell of 7.46 W, and a fifth of it that gives 1.49 W (scaled values of the specification page)', () => {
    const whole = CELLS['front-contact 182 mm'];
    expect(whole.maximumPowerCurrent.value * whole.maximumPowerVoltage.value).toBeCloseTo(7.46, 2);
    const fifth = CELLS['front-contact 182 mm fifth'];
    expect(fifth.shortCircuitCurrent.value).toBeCloseTo(2.645, 3);
    expect(fifth.maximumPowerCurrent.value * fifth.maximumPowerVoltage.value).toBeLessThan(1.492);
    expect(fifth.maximumPowerCurrent.value * fifth.maximumPowerVoltage.value).toBeGreaterThan(0.97 * 1.492);
  });

  it('has battery cells between 130 and 280 Wh/kg', () => {
    for (const [name, cell] of Object.entries(BATTERY_CELLS)) {
      const specific = ((cell.capacity.value / 3600) * 3.65) / cell.mass.value;
      expect(specific, name).toBeGreaterThan(130);
      expect(specific, name).toBeLessThan(280);
      expect(cell.emptyVoltage).toBeLessThan(cell.fullVoltage);
    }
  });

  it('has motors that turn at least 70 % of their power into motion at best', () => {
    for (const [name, motor] of Object.entries(MOTORS)) {
      const best = (1 - Math.sqrt((motor.noLoadCurrent.value * motor.resistance.value) / motor.noLoadVoltage)) ** 2;
      expect(best, name).toBeGreaterThan(0.7);
      expect(best, name).toBeLessThan(0.93);
    }
  });

  it('names no brand: names are words of kind and size', () => {
    for (const [name] of entries) expect(name).toMatch(/^[a-zA-Z0-9 .:/-]+$/);
  });
});
