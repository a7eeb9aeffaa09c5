/** @typedef {import('./stages.mjs').Stage} Stage */

/**
 * One stage after another; checks that stand together go two at a time, since each keeps only one core busy.
 * Test stages use both cores by themselves.
 * @param {Stage[]} stages
 * @param {(stage: Stage) => Promise<void>} run
 */
export async function inTurn(stages, run) {
  const waiting = [...stages];
  async function checks() {
    while (waiting[0]?.commands) await run(/** @type {Stage} */ (waiting.shift()));
  }
  while (waiting.length > 0) {
    await Promise.all([checks(), checks()]);
    const next = waiting.shift();
    if (next) await run(next);
  }
}
