const usual = '20,12,60,101300,0,0,300';

const row = (hour: number, light: number): string =>
  `2001,6,21,${hour},60,x,${usual},${light},${light > 0 ? 700 : 0},${light > 0 ? 100 : 0},0,0,0,0,180,3,5,5,20,77777,9,999999999,150,0.1,0,88,0.2,0,0`;

/** A weather file with one day in it; invented. */
export const weatherYear = `LOCATION,Delta,-,ESP,invented,1,40.7,0.9,1.0,2\n${'x\n'.repeat(6)}DATA PERIODS,1,1,Data,Sunday,1/1,12/31\n${Array.from({ length: 24 }, (_, i) => row(i + 1, i > 5 && i < 19 ? 500 : 0)).join('\n')}`;

/** Light by the half hour on the day of the demo; invented. */
export const measuredLight = `time,irradiance [W/m2]\n${Array.from({ length: 29 }, (_, i) => {
  const hour = 7 + i / 2;
  const clock = `${String(Math.floor(hour)).padStart(2, '0')}:${hour % 1 === 0 ? '00' : '30'}`;
  return `2026-06-21T${clock}+02:00,${Math.round(600 * Math.sin((Math.PI * (hour - 6.5)) / 15))}`;
}).join('\n')}\n`;
