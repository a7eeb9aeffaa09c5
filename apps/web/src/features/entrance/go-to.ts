/** Goes to another of these few pages without loading anew. */
export function goTo(path: string): void {
  window.history.pushState(null, '', path + window.location.search);
  window.dispatchEvent(new PopStateEvent('popstate'));
}
