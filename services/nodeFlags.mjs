/**
 * How Node is started: a small young generation and little slack in the old one. Rules hold one object after another for
 * years and make little garbage; by default Node would let the heap of a large yard grow to twice what is held.
 */
export const nodeFlags = ['--max-semi-space-size=2', '--heap-growing-percent=15'];
