import { useEffect } from 'react';
import { decimalMark, setDecimalMark } from '../../core/decimal.js';
import { useAppState } from '../kit/services.js';

/** Puts the person's choices on the page, where style sheets and drawings read them. */
export function usePreferences(): void {
  const { theme, reducedMotion, largeTargets, language } = useAppState((state) => state.preferences);
  // Before what is below it is drawn: the frame draws everything anew when preferences change.
  setDecimalMark(decimalMark(language));
  useEffect(() => {
    const { dataset } = document.documentElement;
    const set = (key: string, value: string | undefined) => {
      if (value === undefined) delete dataset[key];
      else dataset[key] = value;
    };
    set('theme', theme === 'system' ? undefined : theme);
    // The word of the page is whether things may move.
    set('motion', reducedMotion === 'system' ? undefined : reducedMotion === 'yes' ? 'no' : 'yes');
    set('large', largeTargets ? '' : undefined);
  }, [theme, reducedMotion, largeTargets]);
}
