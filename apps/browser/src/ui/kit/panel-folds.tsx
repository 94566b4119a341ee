import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from 'react';
import { Button } from './button.js';
import { leadTo } from './hooks.js';
import styles from './kit.module.css';

interface Listed {
  readonly title: string;
  readonly element: HTMLElement;
}

interface Folds {
  /** The screen is so narrow that panels fold. */
  readonly isNarrow: boolean;
  /** Whether this panel is the first that came, which starts open. */
  readonly isFirst: (title: string) => boolean;
  /** Puts a panel on the list; the result takes it off. */
  readonly list: (id: string, panel: Listed) => () => void;
}

const Context = createContext<Folds | undefined>(undefined);

/** Below this a place of many panels is longer than anybody scrolls. */
const narrow = '(max-width: 40rem)';

const subscribe = (changed: () => void) => {
  const query = matchMedia(narrow);
  query.addEventListener('change', changed);
  return () => query.removeEventListener('change', changed);
};

const useNarrow = (): boolean => useSyncExternalStore(subscribe, () => matchMedia(narrow).matches);

const inOrder = (a: Listed, b: Listed): number =>
  a.element.compareDocumentPosition(b.element) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1;

/** Panels of a long place: on a phone they fold to their headings, elsewhere a list at the top leads to each. */
export function PanelFolds({ name, children }: { readonly name: string; readonly children: ReactNode }): ReactNode {
  const isNarrow = useNarrow();
  const first = useRef<string>(undefined);
  const [panels, setPanels] = useState<ReadonlyMap<string, Listed>>(new Map());
  // By its title: a drawing that is thrown away and begun anew gives the same panel another id.
  const isFirst = useCallback((title: string) => {
    first.current ??= title;
    return first.current === title;
  }, []);
  const list = useCallback((id: string, panel: Listed) => {
    setPanels((before) => new Map(before).set(id, panel));
    return () => {
      setPanels((before) => {
        const after = new Map(before);
        after.delete(id);
        return after;
      });
    };
  }, []);
  const folds = useMemo(() => ({ isNarrow, isFirst, list }), [isNarrow, isFirst, list]);
  const entries = [...panels].sort(([, a], [, b]) => inOrder(a, b));
  return (
    <Context.Provider value={folds}>
      {!isNarrow && entries.length > fewest && (
        <nav aria-label={name} className={styles.jumps}>
          <ul>
            {entries.map(([id, { title, element }]) => (
              <li key={id}>
                <Button kind="quiet" onPress={() => leadTo(element)}>
                  {title}
                </Button>
              </li>
            ))}
          </ul>
        </nav>
      )}
      {children}
    </Context.Provider>
  );
}

/** Up to so many panels are found without a list. */
const fewest = 3;

/** How a panel takes part: undefined where nothing folds. `open` - as the person left it */
export function usePanelFold(id: string, title: string, element: { readonly current: HTMLElement | null }) {
  const folds = useContext(Context);
  const [open, setOpen] = useState(() => folds?.isFirst(title) ?? true);
  const list = folds?.list;
  useEffect(() => {
    if (list === undefined || element.current === null) return;
    return list(id, { title, element: element.current });
  }, [list, id, title, element]);
  return folds?.isNarrow ? { open, setOpen } : undefined;
}

/** Panels inside a panel neither fold nor are listed. */
export const WithoutFolds = ({ children }: { readonly children: ReactNode }): ReactNode => (
  <Context.Provider value={undefined}>{children}</Context.Provider>
);
