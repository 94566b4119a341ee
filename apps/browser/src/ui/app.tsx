import type { ReactNode } from 'react';
import { type Services, ServicesContext } from './kit/services.js';
import { Shell } from './shell/shell.js';

/** The application with its services. */
export const App = ({ services }: { readonly services: Services }): ReactNode => (
  <ServicesContext value={services}>
    <Shell />
  </ServicesContext>
);
