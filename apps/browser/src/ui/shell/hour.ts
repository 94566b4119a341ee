import { shownVerdict } from '../../core/compute.js';
import type { SkyView, VerdictView } from '../../core/view.js';
import { useFrameThrottle } from '../kit/hooks.js';
import { useAppState, useComputeState, useServices } from '../kit/services.js';

/** The verdict that the page shows: with its uncertainty as soon as that is there. */
export const useVerdict = (): VerdictView | undefined => useComputeState(shownVerdict);

/** The sky that is looked at, and its number. */
export function useSky(): { readonly sky: SkyView | undefined; readonly index: number } {
  const index = useAppState((state) => state.ui.sky);
  const view = useVerdict();
  return { sky: view?.skies[index] ?? view?.skies[0], index };
}

/** The hour that the page shows [h]: the chosen one, else the best of the day. */
export function useHour(): number | undefined {
  const chosen = useAppState((state) => state.ui.hour);
  const { sky } = useSky();
  return chosen ?? sky?.bestRatioAt;
}

/** Moves the hour of the whole page, at most once per picture of the screen. */
export function useMoveHour(): (hour: number) => void {
  const { app } = useServices();
  return useFrameThrottle((hour: number) => app.setUi({ hour }));
}

/** For charts over the day: the cursor that all of them share. */
export function useHourCursor(): { readonly at: number; readonly onMove: (hour: number) => void } | undefined {
  const at = useHour();
  const onMove = useMoveHour();
  return at === undefined ? undefined : { at, onMove };
}
