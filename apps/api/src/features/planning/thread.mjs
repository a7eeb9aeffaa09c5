// The service runs from its sources; a thread has to be told so anew, whatever loader its process has.
import { register } from 'tsx/esm/api';

register();
await import('./worker.ts');
