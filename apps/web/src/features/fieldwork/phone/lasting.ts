/** Whether the browser has promised to keep this site's store; null where it cannot tell. */
export async function isLasting(): Promise<boolean | null> {
  return (await navigator.storage?.persisted?.().catch(() => null)) ?? null;
}

/** Asks the browser to keep the store when the phone runs out of room; some ask the person in turn. */
export async function askForLasting(): Promise<boolean | null> {
  return (await navigator.storage?.persist?.().catch(() => null)) ?? null;
}

/** On the home screen the question costs nothing; elsewhere it waits until there is something to keep. */
export const isInstalled = (): boolean => window.matchMedia('(display-mode: standalone)').matches;
