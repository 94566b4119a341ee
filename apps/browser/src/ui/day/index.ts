/** The place of the day plan, for a frame that lists places instead of finding their files. */
export const dayPlaces = [
  { id: 'day', label: 'Day', question: 'Where, when, under which sky?', load: () => import('./place.js') },
] as const;
