/** Chance in tenths: two digits would pretend too much. */
export function chanceWords(probability: number): string {
  const tenths = Math.round(10 * probability);
  if (tenths >= 10) return 'nearly sure';
  return tenths === 0 ? 'less than 1 in 10' : `about ${tenths} in 10`;
}
