import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';

/** Width that an element has, followed as it changes [px]. */
export function useWidth(element: { readonly current: HTMLElement | null }): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const found = element.current;
    if (found === null) return;
    setWidth(Math.floor(found.clientWidth));
    const observer = new ResizeObserver(() => setWidth(Math.floor(found.clientWidth)));
    observer.observe(found);
    return () => observer.disconnect();
  }, [element]);
  return width;
}

/** Hours and headings that all charts share move with the pointer faster than answers come: the newest counts per frame. */
export function useFrameThrottle<T>(action: (value: T) => void): (value: T) => void {
  const waiting = useRef<{ value: T } | undefined>(undefined);
  const newest = useRef(action);
  useEffect(() => {
    newest.current = action;
  });
  return useMemo(
    () => (value: T) => {
      const isFirst = waiting.current === undefined;
      waiting.current = { value };
      if (!isFirst) return;
      requestAnimationFrame(() => {
        const taken = waiting.current;
        waiting.current = undefined;
        if (taken !== undefined) newest.current(taken.value);
      });
    },
    [],
  );
}

/** Leads to an element: opens what it is folded into, brings it into sight and gives it the focus. */
export function leadTo(element: HTMLElement): void {
  for (let fold = element.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null) {
    // A summary is in sight while its own fold is closed.
    if (!element.matches('summary') || element.parentElement !== fold) fold.open = true;
  }
  element.scrollIntoView({ block: element.offsetHeight > innerHeight / 2 ? 'start' : 'center' });
  element.focus({ preventScroll: true });
}

/**
 * A ref for what goes away by itself, such as the button that stops what then ends: a focus on it passes to what holds it, and is not lost.
 */
export const passFocusOn = (element: HTMLElement | null) => () => {
  if (element === null || document.activeElement !== element) return;
  element.parentElement?.closest<HTMLElement>('[tabindex]')?.focus({ preventScroll: true });
};
