import { type RefObject, useEffect, useRef } from 'react';
import { useOpen } from './open-state.js';

/** A part of the page that the user has just opened comes into sight and takes the focus; one that was open at the start does not. */
export function useOpened(): RefObject<HTMLDivElement | null> {
  const element = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const { levers, compare } = useOpen.getState();
    if (!levers && !compare) return;
    element.current?.scrollIntoView({ block: 'start' });
    element.current?.focus({ preventScroll: true });
  }, []);
  return element;
}
