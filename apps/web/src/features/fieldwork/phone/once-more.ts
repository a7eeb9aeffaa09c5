/** Work that, asked for while it is being done, is done once more after that, and not once for each time asked. */
export function onceMore(work: () => Promise<void>): () => Promise<void> {
  let asked = false;
  let going: Promise<void> | null = null;
  async function go(): Promise<void> {
    try {
      while (asked) {
        asked = false;
        await work();
      }
    } finally {
      // What failed once is tried again when it is asked for the next time.
      going = null;
    }
  }
  return () => {
    asked = true;
    going ??= go();
    return going;
  };
}
