/** Where to go after signing in: the page asked for, if it is one of ours. */
export function wantedPage(search: string, origin: string): string {
  const wanted = new URLSearchParams(search).get('to');
  if (!wanted) return '/';
  const url = new URL(wanted, origin);
  return url.origin === origin && wanted.startsWith('/') ? url.pathname + url.search : '/';
}

export function goIn(): void {
  window.location.assign(wantedPage(window.location.search, window.location.origin));
}
