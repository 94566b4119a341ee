import { createContext, useContext } from 'react';
import { type StoreApi, useStore } from 'zustand';
import type { Compute, ComputeState } from '../../core/compute.js';
import type { Shown } from '../../core/shown.js';
import type { AppState } from '../../core/state.js';
import type { AppStore } from '../../core/store.js';

/** What every part of the page may use; given once by the shell. */
export interface Services {
  readonly app: AppStore;
  /** Answers about the active design and day. */
  readonly compute: Compute;
  /** Answers about what is set beside it. */
  readonly compare: Compute;
  /** Both as they are drawn: an edit together with its answer, where that comes at once. */
  readonly shown: StoreApi<Shown>;
  /** Says something to screen readers without moving the focus. */
  readonly announce: (text: string) => void;
}

export const ServicesContext = createContext<Services | undefined>(undefined);

export function useServices(): Services {
  const services = useContext(ServicesContext);
  if (services === undefined) throw new Error('the page is drawn without its services');
  return services;
}

/** A part of the state as drawn; `select` must return what is in the state, not a new object. */
export const useAppState = <T>(select: (state: AppState) => T): T =>
  useStore(useServices().shown, ({ app }) => select(app));

/** A part of the state as it is now: for what is typed into, which must not lag behind the keys. */
export const useAppStateNow = <T>(select: (state: AppState) => T): T => useStore(useServices().app.store, select);

/** A part of what was computed, as drawn; `select` must return what is in the state, not a new object. */
export const useComputeState = <T>(select: (state: ComputeState) => T): T =>
  useStore(useServices().shown, ({ compute }) => select(compute));
