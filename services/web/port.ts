/** What changed, told to open screens by server-sent events. Ids grow, so a screen can resume after a lost link. */
export type LiveChange =
  | { readonly kind: 'pile'; readonly pileId: string }
  | { readonly kind: 'alarm'; readonly alarmId: string }
  | { readonly kind: 'probe'; readonly probeId: string }
  | { readonly kind: 'yard' }
  | { readonly kind: 'people' }
  | { readonly kind: 'messages' }
  | { readonly kind: 'quarantine' };

/** What other services may tell web in the same process. */
export interface WebPort {
  announce(changes: readonly LiveChange[]): void;
}
