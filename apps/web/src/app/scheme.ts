const key = 'mantine-color-scheme-value';

/** Sets light or dark before anything is drawn, as last chosen or as the device has it. */
export function applyScheme(): void {
  const kept = window.localStorage.getItem(key);
  const dark =
    kept === 'dark' || (kept !== 'light' && window.matchMedia('(prefers-color-scheme: dark)').matches);
  document.documentElement.dataset.mantineColorScheme = dark ? 'dark' : 'light';
}
