import { Component, lazy, type ReactNode, Suspense, useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { Button } from '../kit/button.js';
import { useAppState, useServices } from '../kit/services.js';
import { useAnnouncement } from './announce.js';
import { commandFor, commandsOf } from './commands.js';
import { DayBand } from './day-band.js';
import { useFocusFallback } from './focus-fallback.js';
import { Header } from './header.js';
import { useVerdict } from './hour.js';
import { Nav, Sections } from './nav.js';
import { Notices } from './notices.js';
import { useOpen } from './open-state.js';
import { placeNamed } from './places.js';
import styles from './shell.module.css';
import { usePreferences } from './use-preferences.js';
import { Verdict } from './verdict.js';

const Dialogs = lazy(() => import('./dialogs.js'));
const Levers = lazy(() => import('./levers.js'));
const Compare = lazy(() => import('../compare/panel.js'));
const Conflicts = lazy(() => import('./conflicts.js'));

/** The frame around all places: the day above, the verdict always in sight, the place below it. */
export function Shell(): ReactNode {
  usePreferences();
  useShortcuts();
  useTitle();
  useFocusFallback();
  const open = useOpen();
  const comparing = useAppState((state) => state.work.compare !== undefined);
  return (
    <>
      <SkipLinks />
      <Header />
      <Notices />
      <DayBand />
      <Nav />
      <div className={styles.desk}>
        <aside className={styles.side} aria-label="Verdict">
          <Verdict />
        </aside>
        <main id="place" tabIndex={-1} className={styles.place}>
          <Suspense fallback={null}>
            {open.levers && <Levers />}
            {comparing && <Compare />}
          </Suspense>
          <PlaceBody />
        </main>
      </div>
      <Announcement />
      <Suspense fallback={null}>
        {open.dialog !== undefined && <Dialogs dialog={open.dialog} />}
        <Conflicts />
      </Suspense>
    </>
  );
}

const SkipLinks = (): ReactNode => (
  <p className={styles.skips}>
    <a href="#verdict">To the verdict</a>
    <a href="#day">To the day</a>
    <a href="#place">To the place</a>
  </p>
);

function Announcement(): ReactNode {
  const { text, number } = useAnnouncement();
  return (
    <p role="status" className="nw-unseen">
      <span key={number}>{text}</span>
    </p>
  );
}

/** A place begins at its beginning; on a phone it lies below day and verdict, where nobody would look for it. */
function showTop(main: HTMLElement): void {
  const isBelow = matchMedia('(max-width: 56rem)').matches;
  if (isBelow || main.getBoundingClientRect().top < 0) main.scrollIntoView({ block: 'start' });
}

function PlaceBody(): ReactNode {
  const name = useAppState((state) => state.ui.place);
  const { place, section } = placeNamed(name);
  const heading = useRef<HTMLHeadingElement>(null);
  const seen = useRef(name);
  useEffect(() => {
    // A place that was chosen is announced by the focus on its heading; a field that is asked for takes it afterwards.
    if (seen.current === name) return;
    seen.current = name;
    // What the place has focused itself keeps the focus.
    const main = document.getElementById('place');
    if (main === null || main.contains(document.activeElement)) return;
    showTop(main);
    heading.current?.focus({ preventScroll: true });
  }, [name]);
  return (
    <>
      <div className={styles.placeHead}>
        <h2 ref={heading} tabIndex={-1}>
          {place.label}
        </h2>
        <p>{place.question}</p>
      </div>
      <Sections />
      <Guard key={place.id} name={place.label}>
        <Suspense fallback={<p className={styles.loading}>{place.label} is loading …</p>}>
          <place.Body section={section} />
        </Suspense>
      </Guard>
    </>
  );
}

/** A place that breaks says so and leaves the rest of the page, and the work, as they are. */
class Guard extends Component<{ readonly name: string; readonly children: ReactNode }, { readonly reason?: string }> {
  override state: { readonly reason?: string } = {};

  static getDerivedStateFromError(error: unknown): { readonly reason: string } {
    return { reason: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    const { reason } = this.state;
    if (reason === undefined) return this.props.children;
    return (
      <div role="alert">
        <p>
          {this.props.name} cannot be shown ({reason}). Your work is kept.
        </p>
        <Button onPress={() => this.setState({ reason: undefined as never })}>Try again</Button>
      </div>
    );
  }
}

function useTitle(): void {
  const view = useVerdict();
  const aircraft = view?.aircraft;
  useEffect(() => {
    document.title = aircraft === undefined ? 'noonwing' : `${aircraft}: noonwing`;
  }, [aircraft]);
}

function useShortcuts(): void {
  const services = useServices();
  const store = services.app.store;
  const isOpen = useStore(useOpen, (state) => state.dialog !== undefined);
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      if (event.defaultPrevented || isOpen) return;
      const command = commandFor(commandsOf(services, store.getState()), event);
      if (command === undefined) return;
      event.preventDefault();
      if (!command.enabled) return;
      command.run();
      if (command.group === 'Edit') services.announce(command.label);
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [services, store, isOpen]);
}
