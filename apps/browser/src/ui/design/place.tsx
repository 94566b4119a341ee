import { type ComponentType, type FocusEvent, lazy, type ReactNode, Suspense, useEffect, useState } from 'react';
import { type DesignPart, partOfPath } from '../../core/field-place.js';
import { Button, useAppState, useServices } from '../kit/index.js';
import { PanelFolds } from '../kit/panel-folds.js';
import type { PlaceProps } from '../shell/places.js';
import { Airframe } from './airframe.js';
import { Balance } from './balance.js';
import { Battery } from './battery.js';
import styles from './design.module.css';
import { Drive } from './drive.js';
import { FindingsHere, UnsureHere } from './here.js';
import { showsPath } from './sections.js';
import { TextPanel } from './text-panel.js';
import { useDesignReading, useDesignText } from './use-design.js';

const ArrayPart = lazy(() => import('./array/array.js'));
const SectionPart = lazy(() => import('./section/section.js'));
const Structure = lazy(() => import('./structure/structure.js'));

const bodies: Readonly<Record<DesignPart, ComponentType>> = {
  airframe: Airframe,
  balance: Balance,
  array: ArrayPart,
  drive: Drive,
  battery: Battery,
  structure: Structure,
  section: SectionPart,
};

const isSection = (section: string): section is DesignPart => Object.hasOwn(bodies, section);

/** Leads to the part that shows a field, where the place asked for does not. */
function useRightSection(section: DesignPart): void {
  const { app } = useServices();
  const focus = useAppState((state) => state.ui.focus);
  useEffect(() => {
    if (focus?.file !== 'design' || showsPath(section, focus.path)) return;
    const right = partOfPath(focus.path);
    if (right !== undefined) app.setUi({ place: `design/${right}` });
  }, [focus, section, app]);
}

/** The text beside the fields: as the person left it in this tab. */
let textWasOpen = false;

/** Design: every field of the aircraft by part, the text of its file beside it. */
export default function DesignPlace({ section }: PlaceProps): ReactNode {
  const part: DesignPart = isSection(section) ? section : 'airframe';
  useRightSection(part);
  const { path } = useDesignText();
  const { messages } = useDesignReading();
  const [isOpen, setOpen] = useState(textWasOpen);
  const [at, setAt] = useState<string>();
  const Body = bodies[part];
  const showText = (open: boolean) => {
    textWasOpen = open;
    setOpen(open);
  };
  if (path === undefined) return <p>No design file is open: choose an aircraft or start a new one.</p>;
  const errors = messages.filter(({ severity }) => severity === 'error').length;
  return (
    <div className={styles.design}>
      <div className={styles.bar}>
        <Button pressed={isOpen} onPress={() => showText(!isOpen)}>
          Text of the file
        </Button>
        {errors > 0 && (
          <p className={styles.problem}>
            {errors === 1 ? 'One error in the text:' : `${errors} errors in the text:`} the answer is that of the last
            text without errors.
          </p>
        )}
      </div>
      <div className={isOpen ? `${styles.design} ${styles.beside}` : styles.design}>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: it only hears which field has the focus */}
        <div
          className={styles.part}
          onFocus={(event: FocusEvent<HTMLDivElement>) => {
            const found = event.target.dataset.path;
            if (found !== undefined) setAt(found);
          }}
        >
          <FindingsHere section={part} />
          <PanelFolds key={part} name="On this page">
            <Suspense fallback={<p className={styles.soft}>This part is loading …</p>}>
              <Body />
              <UnsureHere section={part} />
            </Suspense>
          </PanelFolds>
        </div>
        {isOpen && (
          <div className={styles.textSide}>
            <TextPanel at={at} onClose={() => showText(false)} />
          </div>
        )}
      </div>
    </div>
  );
}
