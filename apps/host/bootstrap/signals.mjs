/**
 * Ends the run in order on Ctrl-C, on a service manager's request and when the terminal closes.
 * @param {import('./cleanup.mjs').Cleanup} cleanup
 * @param {Promise<unknown>} starting the start itself, which is let finish its present step
 */
export function stopOnSignals(cleanup, starting) {
  const stop = async () => {
    if (cleanup.signal.aborted) return;
    cleanup.requestStop();
    console.log('\nStopping Countercheck');
    await Promise.race([
      starting.catch(() => undefined),
      new Promise((resolve) => setTimeout(resolve, 20_000)),
    ]);
    await cleanup.run();
    console.log('Stopped; the data is kept.');
    process.exit(0);
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => void stop());

  // A shell between npm and this process may die of the signal meant for us and never pass it on.
  if (process.env['npm_lifecycle_event'] === 'start') {
    const parent = process.ppid;
    setInterval(() => {
      if (process.ppid !== parent) void stop();
    }, 500).unref();
  }
}
