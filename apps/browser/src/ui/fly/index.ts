/** The place of the first flight, for a frame that lists places instead of finding their files. */
export const flyPlaces = [
  { id: 'fly', label: 'Fly', question: 'Within which limits?', load: () => import('./place.js') },
] as const;
