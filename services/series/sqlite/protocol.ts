import type { ChannelName } from '../../../shared/yard/yard.ts';
import type { RangeQuery, Rollup, RollupStep } from '../port.ts';
import type { GroupResult } from './appendGroup.ts';
import type { ReadingColumns } from './columns.ts';

/** What may be asked of the threads, by name: arguments and answer. */
export interface SeriesCalls {
  append: { arguments: [ReadingColumns, number[]]; answer: GroupResult };
  trimStep: { arguments: [beforeMs: number, upToSequence: number]; answer: number };
  range: { arguments: [RangeQuery]; answer: ReadingColumns };
  rollups: { arguments: [ChannelName, RollupStep, fromMs: number, toMs: number]; answer: Rollup[] };
  latest: { arguments: [readonly ChannelName[]]; answer: ReadingColumns };
  since: { arguments: [sequence: number, limit: number]; answer: ReadingColumns };
  channels: { arguments: []; answer: ChannelName[] };
  close: { arguments: []; answer: null };
}
export type CallName = keyof SeriesCalls;

export interface WorkerRequest {
  readonly id: number;
  readonly call: CallName;
  readonly values: readonly unknown[];
}

export type WorkerAnswer =
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly error: string };

export interface WorkerSettings {
  readonly file: string;
  readonly role: 'writer' | 'reader';
}
