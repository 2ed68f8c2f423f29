// Starts the page: every element registers itself.
import './app.js';
