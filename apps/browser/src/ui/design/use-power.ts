import { useEffect } from 'react';
import { useComputeState, useServices } from '../kit/index.js';

/** Level power against airspeed of the aircraft shown; asked for while a part of the page shows it. */
export function usePower() {
  const { compute } = useServices();
  useEffect(() => {
    compute.want({ power: {} });
    return () => compute.want({ power: null });
  }, [compute]);
  return useComputeState(({ channels }) => channels.power);
}
