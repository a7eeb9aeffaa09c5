/** Puts the cursor where the first correction is needed, or else on the words about what went wrong. */
export function focusFirstBad(form: HTMLElement | null): void {
  // The fields learn of their errors with the next paint.
  requestAnimationFrame(() => {
    const target =
      form?.querySelector<HTMLElement>('[aria-invalid="true"]:not(:disabled)') ??
      form?.querySelector<HTMLElement>('[data-form-problem]');
    target?.focus();
  });
}
