/** The place of measurements, for a frame that lists places instead of finding their files. */
export const measurePlaces = [
  { id: 'measure', label: 'Measure', question: 'What do the parts really do?', load: () => import('./place.js') },
] as const;
