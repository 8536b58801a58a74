import type { ChannelKind, Message } from '../records/port.ts';

/** How one attempt ended. `detail` is shown to people and never holds a secret. */
export type SendOutcome =
  | { readonly kind: 'sent'; readonly detail: string; readonly reference: string | null }
  /** Worth trying again: no answer, server trouble, too many requests. */
  | { readonly kind: 'retry'; readonly detail: string; readonly notBeforeMs?: number }
  /** Trying again cannot help: the gateway refuses this message or this account. */
  | { readonly kind: 'gave-up'; readonly detail: string };

/** A way to reach a person. One file per kind, all of this shape. */
export interface MessageChannel {
  readonly kind: ChannelKind;
  /** Hands over one message. Never throws for trouble on the other side: that is an outcome. */
  send(message: Message): Promise<SendOutcome>;
}
