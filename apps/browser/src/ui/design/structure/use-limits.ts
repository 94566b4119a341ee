import { useEffect } from 'react';
import { useComputeState, useServices } from '../../kit/index.js';

/** Limits of the aircraft shown; they are asked for by the frame, as the verdict names them too. */
export const useLimits = () => useComputeState(({ channels }) => channels.limits);

/** What would raise the limit speed; asked for while a part of the page shows it. */
export function useStiffenings() {
  const { compute } = useServices();
  useEffect(() => {
    compute.want({ stiffenings: {} });
    return () => compute.want({ stiffenings: null });
  }, [compute]);
  return useComputeState(({ channels }) => channels.stiffenings);
}
