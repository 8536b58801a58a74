/** A measurement that stands on its own: full name, absolute time, primary unit (RFC 8428 section 4.6). */
interface ResolvedBase {
  readonly name: string;
  /** SenML symbol of a primary unit; null when the pack gave none, and the channel's set-up must supply it. */
  readonly unit: string | null;
  /** Epoch milliseconds, whole. */
  readonly timeMs: number;
  /** Epoch seconds as the pack's own arithmetic gives them; may carry less than a millisecond. */
  readonly timeSeconds: number;
  /** Integral over time in unit x seconds, where the pack has one. */
  readonly sum?: number;
  /** The sender promises another reading within this time (RFC 8428 `ut`). */
  readonly updateWithinSeconds?: number;
  /** 10 unless the pack says otherwise. */
  readonly version: number;
}

export type ResolvedValue =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'boolean'; readonly value: boolean }
  | { readonly kind: 'data'; readonly value: Uint8Array }
  /** No value of its own: only the sum, repeated here. */
  | { readonly kind: 'sum'; readonly value: number };

export type ResolvedRecord = ResolvedBase & ResolvedValue;
