/** What has to be undone when the run ends, newest first, whichever way it ends. */
export class Cleanup {
  /** @type {(() => unknown)[]} */
  #works = [];
  #stop = new AbortController();

  /** Aborted as soon as somebody asks for the end, so that a step under way can give up. */
  get signal() {
    return this.#stop.signal;
  }

  requestStop() {
    this.#stop.abort();
  }

  /** @param {() => unknown} work */
  add(work) {
    this.#works.push(work);
  }

  /** @returns {Promise<void>} */
  async run() {
    for (let work = this.#works.pop(); work !== undefined; work = this.#works.pop()) {
      try {
        await work();
      } catch (error) {
        console.error(error instanceof Error ? error.message : error);
      }
    }
  }
}
