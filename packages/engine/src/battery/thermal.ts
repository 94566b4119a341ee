/** Warming of a cell by its own losses. */
export interface CellThermal {
  /** [J/K] per cell */
  readonly heatCapacity: number;
  /** Heat flow to the surroundings per kelvin of difference [W/K] per cell. */
  readonly conductance: number;
}

/**
 * Thermal data of a cell from its mass: 1000 J/(kg K) and 0.9 W/(kg K) in the open (10 W/(m2 K) on the skin of a
 * cylindrical cell), far less in foam. From memory.
 *
 * @param mass - of the cell [kg]
 * @param exposure - 1 in the open to about 0.2 wrapped in foam
 */
export function typicalCellThermal(mass: number, exposure = 0.5): CellThermal {
  if (!(mass > 0) || !(exposure >= 0)) throw new RangeError('mass must be positive, exposure not negative');
  return { heatCapacity: 1000 * mass, conductance: 0.9 * mass * exposure };
}

/**
 * Cell temperature after a step of constant loss: exact exponential approach to ambient + loss / conductance.
 *
 * @param temperature - of the cell at the start [K]
 * @param ambient - [K]
 * @param cellLoss - heat per cell, >= 0 [W]; of a pack: `PackStep.lossPower` / number of cells
 * @param duration - [s]
 * @returns temperature at the end [K]
 * Source: lumped heat balance C dT/dt = loss - G (T - T_ambient).
 */
export function stepCellTemperature(
  thermal: CellThermal,
  at: {
    readonly temperature: number;
    readonly ambient: number;
    readonly cellLoss: number;
    readonly duration: number;
  },
): number {
  const { heatCapacity, conductance } = thermal;
  if (!(heatCapacity > 0)) throw new RangeError('the heat capacity must be positive');
  const rate = (at.cellLoss - conductance * (at.temperature - at.ambient)) / heatCapacity;
  const x = (conductance * at.duration) / heatCapacity;
  // (1 - e^-x)/x, which is 1 for a cell without cooling.
  return at.temperature + rate * at.duration * (x > 1e-12 ? -Math.expm1(-x) / x : 1);
}
