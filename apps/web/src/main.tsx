import './app/styles/tokens.css';
import './app/styles/base.css';
import { applyScheme } from './app/scheme.ts';

applyScheme();

const root = document.getElementById('root');
const beforeSession = /^\/(sign-in|forgot|access)(\/|$)/.test(window.location.pathname);

// Two programs behind one address, so that signing in on a phone at a building site loads little.
const program = beforeSession ? import('./app/entrance.tsx') : import('./app/desk.tsx');
void program.then(({ start }) => {
  if (root) start(root);
});
