import { type Air, dynamicViscosity, specificHeat, thermalConductivity } from '../air/index.js';
import { standardTemperature, stefanBoltzmann } from './constants.js';

/** How the plate is heated: sets the coefficient of the laminar law. */
export type PlateHeating = 'uniform flux' | 'uniform temperature';

/**
 * Coefficient of Nu = c Re^(1/2) Pr^(1/3) in laminar flow: 0.664 gives the mean heat transfer at uniform temperature,
 * 0.680 the mean plate temperature at uniform flux, which is the case of cells on a wing.
 * Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, eqs. 7.30 and 7.49 (from memory).
 */
const laminarCoefficient: Readonly<Record<PlateHeating, number>> = {
  'uniform flux': 0.68,
  'uniform temperature': 0.664,
};

/** Specific gas constant of dry air [J/(kg K)]. */
const gasConstant = 287.053;

/** Air at the plate: its temperature and pressure; an Air of the air folder serves. */
export type AirAtPlate = Pick<Air, 'temperature' | 'pressure'>;

/** What decides the heat transfer from a wing surface. */
export interface PlateFlow {
  readonly air: AirAtPlate;
  /** True airspeed [m/s]. */
  readonly airspeed: number;
  /** Distance from the leading edge to the end of the cells [m]. */
  readonly length: number;
  /** Distance from the leading edge to where the cells begin [m]; default 0, the mean from the leading edge on. */
  readonly from?: number;
  /** Part of that length with a laminar boundary layer: 1 laminar, 0 tripped at the leading edge. Default 0.5. */
  readonly laminarFraction?: number;
  /** Default 'uniform flux'. */
  readonly heating?: PlateHeating;
}

/** What moves heat through air at a film temperature. */
interface FilmProperties {
  readonly conductivity: number;
  readonly prandtl: number;
  /** [m2/s] */
  readonly kinematicViscosity: number;
}

function filmProperties(film: number, pressure: number): FilmProperties {
  const viscosity = dynamicViscosity(film);
  const conductivity = thermalConductivity(film);
  return {
    conductivity,
    prandtl: (specificHeat * viscosity) / conductivity,
    kinematicViscosity: (viscosity * gasConstant * film) / pressure,
  };
}

/** Forced heat transfer coefficient of a plate from the leading edge on, times its length [W/(m K)]. */
function forcedTransfer(
  { airspeed, heating = 'uniform flux' }: PlateFlow,
  { conductivity, prandtl, kinematicViscosity }: FilmProperties,
  length: number,
  laminar: number,
): number {
  const reynolds = (Math.max(airspeed, 0) * length) / kinematicViscosity;
  const laminarPart = laminarCoefficient[heating] * Math.sqrt(laminar * reynolds);
  const turbulentPart = laminar === 1 ? 0 : 0.037 * reynolds ** 0.8 * (1 - laminar ** 0.8);
  return (laminarPart + turbulentPart) * Math.cbrt(prandtl) * conductivity;
}

/** Heat transfer coefficient of still air along a plate [W/(m2 K)]. */
function naturalTransfer(flow: PlateFlow, film: FilmProperties, plateTemperature: number): number {
  const { temperature } = flow.air;
  const excess = plateTemperature - temperature;
  const { conductivity, prandtl, kinematicViscosity } = film;
  const rayleighPerCubicMetre =
    (9.81 * Math.abs(excess) * prandtl) / (((plateTemperature + temperature) / 2) * kinematicViscosity ** 2);
  // Warm air rises off a warm plate in cells that do not know its length; over a plate colder than the air it rests.
  return excess > 0
    ? 0.15 * conductivity * Math.cbrt(rayleighPerCubicMetre)
    : ((0.27 * conductivity) / flow.length) * (rayleighPerCubicMetre * flow.length ** 3) ** 0.25;
}

const laminarPartOf = ({ laminarFraction = 0.5 }: PlateFlow): number => Math.min(Math.max(laminarFraction, 0), 1);

/**
 * Mean heat transfer coefficient of a flat plate along the flow, laminar up to a transition point and turbulent beyond,
 * not less than natural convection from a surface facing up.
 *
 * @param flow - air, airspeed [m/s], length [m], laminar fraction [0 to 1]
 * @param plateTemperature - mean temperature of the plate [K]; properties are taken at the film temperature between
 *   plate and air
 * @returns heat transfer coefficient [W/(m2 K)]; valid for Reynolds numbers up to 1e7
 * Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 7.2 (0.664 Re^0.5 laminar, 0.037 Re^0.8
 * turbulent; at Re = 5e5 transition the blend is its 0.037 Re^0.8 - 871) and 9.6 (0.15 Ra^(1/3) warm, 0.27 Ra^(1/4) cold);
 * from memory.
 */
export const plateHeatTransfer = (flow: PlateFlow, plateTemperature: number): number =>
  rowHeatTransfer({ ...flow, from: 0 }, plateTemperature);

/**
 * Mean heat transfer coefficient of a row of cells that begins behind the leading edge: the difference of the integrals
 * over the plate up to its end and up to its beginning. A row behind the transition is cooled better than the one ahead; in
 * air that hardly moves both are left with natural convection.
 *
 * @param flow - as for `plateHeatTransfer`, with `from`; the laminar part is that of the whole length
 * @param plateTemperature - [K]
 * @returns heat transfer coefficient [W/(m2 K)]; the unheated plate ahead of the cells is left out, which reads a little low
 * Source: mean coefficients of `plateHeatTransfer`, as integrals along the plate.
 */
export function rowHeatTransfer(flow: PlateFlow, plateTemperature: number): number {
  const { from = 0, length } = flow;
  const film = filmProperties((plateTemperature + flow.air.temperature) / 2, flow.air.pressure);
  const laminar = laminarPartOf(flow);
  const natural = naturalTransfer(flow, film, plateTemperature);
  const whole = forcedTransfer(flow, film, length, laminar);
  if (!(from > 0 && from < length)) return Math.max(whole / length, natural);
  const ahead = forcedTransfer(flow, film, from, Math.min(1, (laminar * length) / from));
  return Math.max((whole - ahead) / (length - from), natural);
}

/** What decides the temperature of cells on a wing. */
export interface FlightCellThermal extends PlateFlow {
  /** Irradiance on the cells [W/m2]. */
  readonly irradiance: number;
  /** Solar absorptance of the covered cell, default 0.92. */
  readonly absorptance?: number;
  /** Thermal emittance of the cover, default 0.85. */
  readonly emittance?: number;
  /** Electrical efficiency at 25 C of the light on the cell, default 0.22. Zero where no current is drawn. */
  readonly efficiency?: number;
  /** Relative change of the efficiency with temperature [1/K], default -0.003. */
  readonly efficiencyCoefficient?: number;
  /** Convection from the rear as a fraction of the front: 0 on foam or a closed wing (default), 1 for a free plate. */
  readonly rearFraction?: number;
}

/** Heat balance of cells on a wing. */
export interface FlightCellState {
  /** Cell temperature [K]. */
  readonly temperature: number;
  /** Of the front [W/(m2 K)]. */
  readonly heatTransferCoefficient: number;
  /** Net radiation to the sky [W/m2]. */
  readonly radiation: number;
  /** Heat carried by the air from both sides [W/m2]. */
  readonly convection: number;
  /** Electrical efficiency at that temperature. */
  readonly efficiency: number;
}

/**
 * Effective temperature of a clear sky for thermal radiation.
 *
 * @param airTemperature - at the ground or at flight level [K]
 * @returns sky temperature [K]
 * Source: Swinbank, Q. J. R. Meteorol. Soc. 89, 1963 (0.0552 T^1.5; from memory).
 */
export const skyTemperature = (airTemperature: number): number => 0.0552 * airTemperature ** 1.5;

/**
 * Temperature of cells on a wing in flight from the balance
 * (absorptance - efficiency) G = h (1 + rear) (T - Ta) + emittance sigma (T^4 - Tsky^4).
 *
 * @param thermal - light, flow, surface; see FlightCellThermal
 * @returns temperature [K] and the terms of the balance. Model uncertainty about 5 K (1.7 % of power): transition and
 *   turbulence of the outer flow are seldom known
 * Source: energy balance of Duffie and Beckman, Solar Engineering of Thermal Processes, with flat-plate convection.
 */
export function flightCellTemperature(thermal: FlightCellThermal): FlightCellState {
  const { irradiance, absorptance = 0.92, emittance = 0.85, efficiency: nominal = 0.22 } = thermal;
  const { efficiencyCoefficient = -0.003, rearFraction = 0 } = thermal;
  const ambient = thermal.air.temperature;
  const sky4 = skyTemperature(ambient) ** 4;
  const radiance = emittance * stefanBoltzmann;
  const efficiencyAt = (t: number): number =>
    Math.min(Math.max(nominal * (1 + efficiencyCoefficient * (t - standardTemperature)), 0), absorptance);
  let temperature = ambient + irradiance / 60;
  let h = 0;
  for (let iteration = 0; iteration < 40; iteration++) {
    h = rowHeatTransfer(thermal, temperature);
    const exchange = h * (1 + rearFraction);
    const cube = temperature * temperature * temperature;
    const residual =
      (absorptance - efficiencyAt(temperature)) * irradiance -
      exchange * (temperature - ambient) -
      radiance * (cube * temperature - sky4);
    // The film properties hardly move h, so its slope is left out: each step gains two digits or more in forced flow.
    const step = residual / (exchange + 4 * radiance * cube + nominal * efficiencyCoefficient * irradiance);
    temperature += step;
    if (step < 1e-6 && step > -1e-6) break;
  }
  return {
    temperature,
    heatTransferCoefficient: h,
    radiation: radiance * (temperature ** 4 - sky4),
    convection: h * (1 + rearFraction) * (temperature - ambient),
    efficiency: efficiencyAt(temperature),
  };
}
