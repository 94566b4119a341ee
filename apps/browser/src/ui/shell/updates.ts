import { create } from 'zustand';
import type { AppStore } from '../../core/store.js';

/** What takes the new version, where one waits. */
export const useUpdate = create<{ readonly accept: (() => void) | undefined }>(() => ({ accept: undefined }));

/** Between looks for a new version [ms]. */
const lookEvery = 60 * 60 * 1000;

/** Keeps the page for use without a network, and tells when a new version waits; it is used only when the user agrees. */
export function watchForUpdates(app: AppStore): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  let agreed = false;
  const offer = (waiting: ServiceWorker) =>
    useUpdate.setState({
      accept: () => {
        agreed = true;
        void app.saved().then(() => waiting.postMessage({ type: 'SKIP_WAITING' }));
      },
    });
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (agreed) location.reload();
  });
  const register = async () => {
    const registration = await navigator.serviceWorker.register('./sw.js', { scope: './' });
    if (registration.waiting !== null && navigator.serviceWorker.controller !== null) offer(registration.waiting);
    registration.addEventListener('updatefound', () => {
      const fresh = registration.installing;
      fresh?.addEventListener('statechange', () => {
        if (fresh.state === 'installed' && navigator.serviceWorker.controller !== null) offer(fresh);
      });
    });
    setInterval(() => void registration.update().catch(() => {}), lookEvery);
  };
  // Without a network or where the host forbids it, the page works all the same; only the next start needs the network.
  void register().catch(() => {});
}
