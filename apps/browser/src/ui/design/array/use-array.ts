import { useEffect } from 'react';
import { useAppState, useComputeState, useServices } from '../../kit/index.js';
import { useHour, useSky } from '../../shell/hour.js';

/** Midday, until the best hour of the day is known [h]. */
const midday = 12;

/** The array under the sky, at the hour and on the heading that the page shows; asked for while a part of the page shows it. */
export function useArray() {
  const { compute } = useServices();
  const { index: sky } = useSky();
  const hour = useHour() ?? midday;
  const heading = useAppState(({ ui }) => ui.heading);
  useEffect(() => compute.want({ array: { sky, hour, heading } }), [compute, sky, hour, heading]);
  useEffect(() => () => compute.want({ array: null }), [compute]);
  return useComputeState(({ channels }) => channels.array);
}
