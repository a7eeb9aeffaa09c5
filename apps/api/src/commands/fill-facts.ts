import { fillMissingFacts } from '../features/replay/index.ts';
import { openDatabase } from '../kernel/database/database.ts';

/**
 * Works out the facts of houses that have none, as after an update, so that the next replay need not. May run
 * beside the service and be stopped at any time. DATABASE_URL may be the owner's or the app's.
 */
const url = process.env['DATABASE_URL'];
if (!url) throw new Error('DATABASE_URL is not set.');

const database = openDatabase(url, 2, (error) => console.error(error.message));
const stop = new AbortController();
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => stop.abort());
let filled = 0;
try {
  await fillMissingFacts(database, stop.signal, (houses) => (filled += houses));
} catch (error) {
  if (!stop.signal.aborted) throw error;
}
console.log(`The facts of ${filled} houses were worked out.`);
await database.close();
