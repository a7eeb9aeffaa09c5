/** @param {number} since */
export const secondsSince = (since) => `${((performance.now() - since) / 1000).toFixed(1)} s`;

/**
 * Shows a step while it runs and how long it took. Only a terminal gets the line twice: in a log file one
 * line a step is enough.
 * @template T
 * @param {string} name
 * @param {() => Promise<T>} work
 * @param {AbortSignal} [signal] no further step begins once it is aborted
 * @returns {Promise<T>}
 */
export async function step(name, work, signal) {
  signal?.throwIfAborted();
  const start = performance.now();
  const again = process.stdout.isTTY === true ? '\r' : '';
  if (again) process.stdout.write(`  … ${name}`);
  try {
    const result = await work();
    process.stdout.write(`${again}  ✓ ${name} (${secondsSince(start)})\n`);
    return result;
  } catch (error) {
    process.stdout.write(`${again}  ✗ ${name} (${secondsSince(start)})\n`);
    throw error;
  }
}
