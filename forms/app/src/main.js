// Starts the page: every element registers itself.
import { applySettings } from './settings.js';
import './app.js';
import { startWorker } from './worker.js';

applySettings();
startWorker();
