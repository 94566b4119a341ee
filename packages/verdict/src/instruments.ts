/** What usual instruments reach (common practice, no source): share of the value, and a fixed part. */
const instruments: Readonly<Record<string, readonly [share: number, fixed: number]>> = {
  batteryVoltage: [0.005, 0.02],
  batteryCurrent: [0.02, 0.03],
  arrayVoltage: [0.005, 0.02],
  arrayCurrent: [0.02, 0.03],
  openCircuitVoltage: [0.005, 0.02],
  shortCircuitCurrent: [0.02, 0.03],
  maximumPower: [0.025, 0],
  irradiance: [0.04, 5],
  cellTemperature: [0, 3],
  airTemperature: [0, 1.5],
  worstCellVoltage: [0, 0.02],
  zeroCurrent: [0, 0.02],
  wind: [0.2, 0.5],
  tilt: [0, 0.035],
  facing: [0, 0.1],
  nose: [0, 0.1],
};

/** A number with the uncertainty of a usual instrument. */
export function usualRead(key: string, value: number): { readonly value: number; readonly sigma: number } {
  const [share, fixed] = instruments[key]!;
  return { value, sigma: Math.hypot(share * value, fixed) };
}
