import { describe, expect, it } from 'vitest';
import { effectiveIrradiance } from './light.js';
import { fitConverterLoss } from './loss-fit.js';
import { californianWeights, europeanWeights, weightedEfficiency } from './weights.js';
import { gaugeArea, gaugeDiameter, stringLeadResistance, wire, wireLoss } from './wire.js';

describe('wire', () => {
  it('doubles its area every three gauges (rule of the gauge, 92^(2/13) = 2.005)', () => {
    expect(gaugeArea(15) / gaugeArea(18)).toBeCloseTo(92 ** (6 / 39), 10);
    expect(gaugeDiameter(36)).toBeCloseTo(0.127e-3, 15);
  });

  it('adds resistance in heat: 1.1572 times at 60 C (IEC 60028)', () => {
    const run = { area: 1e-6, length: 1 };
    expect(wire({ ...run, temperature: 333.15 }).resistance / wire(run).resistance).toBeCloseTo(1.1572, 4);
  });

  it('trades mass for resistance: their product does not depend on the gauge', () => {
    const product = (gauge: number) => {
      const { resistance, copperMass } = wire({ area: gaugeArea(gauge), length: 2 });
      return resistance * copperMass;
    };
    expect(product(12) / product(24)).toBeCloseTo(1, 12);
  });

  it('counts stranding, insulation and single leads', () => {
    const bare = wire({ area: 1e-6, length: 1 });
    const real = wire({ area: 1e-6, length: 1, strandingAllowance: 0.03, insulationRatio: 0.6, conductors: 1 });
    expect(real.loopLength).toBe(1);
    expect(real.resistance / bare.resistance).toBeCloseTo(0.515, 12);
    expect(real.mass / bare.mass).toBeCloseTo(0.8, 12);
  });

  it('refuses a wire without copper', () => {
    expect(wireLoss({ area: 0, length: 1 }, 5)).toMatchObject({ ok: false, code: 'wire-without-section' });
    expect(wireLoss({ area: 1e-6, length: -1 }, 5)).toMatchObject({ ok: false });
    expect(wireLoss({ area: 1e-6, length: 1 }, Number.NaN)).toMatchObject({ ok: false });
  });

  it('adds joints, connector poles and wire', () => {
    expect(stringLeadResistance({})).toBe(0);
    expect(
      stringLeadResistance({
        joints: 24,
        jointResistance: 0.002,
        connectorPoles: 2,
        poleResistance: 0.001,
        wireResistance: 0.03,
      }),
    ).toBeCloseTo(0.08, 12);
  });
});

describe('effectiveIrradiance', () => {
  it('multiplies what is given and is never negative', () => {
    expect(effectiveIrradiance(1000)).toBe(1000);
    expect(effectiveIrradiance(1000, { filmFactor: 0.95, soilingFactor: 0.98, incidenceFactor: 0.9 })).toBeCloseTo(
      837.9,
      9,
    );
    expect(effectiveIrradiance(-1)).toBe(0);
  });
});

describe('weighted efficiency', () => {
  it('has weights that add up to one, so that a flat efficiency keeps its value', () => {
    for (const weights of [europeanWeights, californianWeights]) {
      expect(weightedEfficiency(() => 0.9, weights)).toBeCloseTo(0.9, 12);
    }
  });
});

describe('fitConverterLoss', () => {
  const reading = (current: number) => {
    const outputPower = 14.8 * current;
    return {
      outputPower,
      outputVoltage: 14.8,
      efficiency: outputPower / (outputPower + 0.3 + 0.2 * current + 0.05 * current * current),
    };
  };

  it('finds the losses again from three readings, and from five', () => {
    for (const currents of [
      [0.5, 2, 5],
      [0.3, 1, 2, 4, 6],
    ]) {
      const fit = fitConverterLoss(currents.map(reading));
      expect(fit.ok).toBe(true);
      if (!fit.ok) return;
      expect(fit.value.fixed).toBeCloseTo(0.3, 9);
      expect(fit.value.perAmpere).toBeCloseTo(0.2, 9);
      expect(fit.value.resistance).toBeCloseTo(0.05, 9);
    }
  });

  it('refuses too few, equal and impossible readings', () => {
    expect(fitConverterLoss([reading(1), reading(2)])).toMatchObject({ ok: false });
    expect(fitConverterLoss([reading(1), reading(1), reading(1)])).toMatchObject({ ok: false });
    expect(fitConverterLoss([reading(1), reading(2), { ...reading(3), efficiency: 1.2 }])).toMatchObject({ ok: false });
  });
});
