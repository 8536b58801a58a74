/**
 * How the program itself stands, as the services last saw it; judged beside the yard, because a watch that has stopped
 * must say so. Null means "not known": then nothing is raised and nothing cleared.
 */
export interface ServiceFacts {
  /** Readings can come in: our own broker listens, or we are connected to the yard's. */
  readonly brokerConnected: boolean | null;
  /** Records can be read and written, and InfluxDB takes readings where one is set up. */
  readonly databaseReachable: boolean | null;
  /** Free share of the disk the data stands on, 0..1, and in bytes. */
  readonly diskFreeFraction: number | null;
  readonly diskFreeBytes: number | null;
  /** Used share of the space given to readings here until InfluxDB has them, 0..1 and beyond; null where none is given. */
  readonly localSpaceUsedFraction: number | null;
  /** How long the longest waiting message has been seen waiting, of real time; 0 when none waits. */
  readonly messageWaitedMs: number | null;
  /** The last jump of this machine's clock: when it was noticed, and how far it went; null when there was none. */
  readonly clockStep: { readonly atMs: number; readonly stepMs: number } | null;
}

export const nothingKnown: ServiceFacts = {
  brokerConnected: null,
  databaseReachable: null,
  diskFreeFraction: null,
  diskFreeBytes: null,
  localSpaceUsedFraction: null,
  messageWaitedMs: null,
  clockStep: null,
};
