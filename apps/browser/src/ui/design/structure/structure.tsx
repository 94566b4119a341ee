import type { ReactNode } from 'react';
import { EditPanel, LaunchPanel } from './edit-panel.js';
import { LayUpPanel } from './lay-up-panel.js';
import { LimitsPanel } from './limits-panel.js';
import { LoadPanels } from './load-panel.js';

/** How fast it may fly, what it is built of, what loads do to it, and every key of its structure. */
export default function Structure(): ReactNode {
  return (
    <>
      <LimitsPanel />
      <LayUpPanel />
      <LoadPanels />
      <EditPanel />
      <LaunchPanel />
    </>
  );
}
