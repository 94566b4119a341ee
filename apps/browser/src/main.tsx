import '@noonwing/drawing/drawing.css';
import './ui/shell/theme.css';
import { createRoot } from 'react-dom/client';
import { App } from './ui/app.js';
import { startServices } from './ui/shell/start-services.js';
import { watchForUpdates } from './ui/shell/updates.js';

const services = await startServices();
createRoot(document.getElementById('page')!).render(<App services={services} />);
watchForUpdates(services.app);
