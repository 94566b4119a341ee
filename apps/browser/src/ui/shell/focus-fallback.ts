import { useEffect } from 'react';
import { leadTo } from '../kit/hooks.js';
import { useAppState, useServices } from '../kit/services.js';

/** The field itself takes the focus; where none has within this time, what is nearest to it does [ms]; common practice, no source. */
const patience = 900;

const isWithin = (path: string, group: string): boolean =>
  path === group || path.startsWith(`${group}.`) || path.startsWith(`${group}[`);

/**
 * Of the paths that can be focused, the nearest to a wanted one: the first inside it, else the one that holds it most closely,
 * else one of the same group.
 */
export function nearestPath(paths: readonly string[], wanted: string): string | undefined {
  const inside = paths.find((path) => isWithin(path, wanted));
  if (inside !== undefined) return inside;
  const holding = paths.filter((path) => isWithin(wanted, path)).sort((a, b) => b.length - a.length)[0];
  if (holding !== undefined) return holding;
  const end = Math.max(wanted.lastIndexOf('.'), wanted.lastIndexOf('['));
  return end <= 0 ? undefined : nearestPath(paths, wanted.slice(0, end));
}

/** A warning may lead to a group, or to a key that is not written yet: it must never lead nowhere. */
export function useFocusFallback(): void {
  const { app } = useServices();
  const focus = useAppState((state) => state.ui.focus);
  useEffect(() => {
    if (focus === undefined) return;
    const timer = setTimeout(() => {
      const fields = [...document.querySelectorAll<HTMLElement>('#place [data-path]')].filter(
        ({ dataset }) => (dataset.file ?? 'design') === focus.file,
      );
      const near = nearestPath(
        fields.map(({ dataset }) => dataset.path!),
        focus.path,
      );
      const found =
        near === undefined
          ? document.querySelector<HTMLElement>('#place h2')
          : fields.find(({ dataset }) => dataset.path === near)!;
      if (found !== null) leadTo(found);
      app.setUi({ focus: undefined });
    }, patience);
    return () => clearTimeout(timer);
  }, [focus, app]);
}
