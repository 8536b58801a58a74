/** Moves the keyboard to what is about to be drawn, so that it is not lost with a button that goes away. */
export function focusSoon(selector: string): void {
  requestAnimationFrame(() => document.querySelector<HTMLElement>(selector)?.focus());
}
