import { randomUUID } from 'node:crypto';
import type { BaseLogger } from 'pino';
import { z } from 'zod';
import { channelsToldSchema } from '../notify/port.ts';
import type { LeaseGrant, LeaseRow, LeaseStore, ProcessStore } from '../records/port.ts';
import { fairMoves } from './fairShare.ts';
import { createObserver } from './observe.ts';
import type { ProcessStanding, Share, SharedWork, WorkSharing } from './port.ts';

/** Real time between two signs of life, and how long a process may be without one before its work is taken over. */
export const beatMs = 2_000;
export const lapseMs = 10_000;
/** A process not heard from for this long is struck off the list. */
const forgetMs = 60_000;

export interface SharingOptions {
  readonly leases: LeaseStore;
  readonly processes: ProcessStore;
  /** How this process stands just now. */
  readonly standing: () => ProcessStanding;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
  readonly beatMilliseconds?: number;
  readonly lapseMilliseconds?: number;
}

const standingSchema = z.object({
  services: z.array(z.string()),
  isBrokerConnected: z.boolean().nullable(),
  isForwarding: z.boolean().nullable(),
  localSpaceUsedFraction: z.number().nullable(),
  // A process of an older version says nothing of them.
  channels: channelsToldSchema.nullable().default(null),
});

interface Held {
  readonly grant: LeaseGrant;
  /** When the last renewal that succeeded was begun, on the steady clock. */
  renewedMs: number;
}

/** Processes of a yard, over the records they all have: see the room's README for how a lease changes hands. */
export function startSharing(options: SharingOptions): WorkSharing {
  const sharing = new Sharing(options);
  return {
    processId: sharing.id,
    share: (work) => sharing.share(work),
    processes: () => sharing.others(),
    stop: () => sharing.stop(),
  };
}

class Sharing {
  readonly id = randomUUID();
  readonly #options: SharingOptions;
  readonly #beatMs: number;
  readonly #lapseMs: number;
  readonly #works: SharedWork[] = [];
  readonly #held = new Map<string, Held>();
  /** Being handed back: leaving off may take a while, and signs of life must not wait for it. */
  readonly #leaving = new Map<string, Promise<void>>();
  #isSilent = false;
  readonly #leaseWatch;
  readonly #processWatch;
  #others: readonly ProcessStanding[] = [];
  #looking: Promise<void> | null = null;
  readonly #timer: NodeJS.Timeout;
  #isStopping = false;

  constructor(options: SharingOptions) {
    this.#options = options;
    this.#beatMs = options.beatMilliseconds ?? beatMs;
    this.#lapseMs = options.lapseMilliseconds ?? lapseMs;
    this.#leaseWatch = createObserver(3 * this.#beatMs);
    this.#processWatch = createObserver(3 * this.#beatMs);
    this.#timer = setInterval(() => void this.look(), this.#beatMs);
  }

  share(work: SharedWork): Share {
    this.#works.push(work);
    void this.look();
    const nameOf = (piece: string) => `${work.kind}:${piece}`;
    const heldNow = (name: string) => (this.#leaving.has(name) ? undefined : this.#held.get(name));
    return {
      has: (piece) => heldNow(nameOf(piece)) !== undefined,
      grantOf: (piece) => heldNow(nameOf(piece))?.grant ?? null,
      isOurs: (piece) => {
        const held = heldNow(nameOf(piece));
        return held !== undefined && performance.now() - held.renewedMs < this.#lapseMs - this.#beatMs;
      },
      held: () =>
        [...this.#held.keys()]
          .filter((name) => name.startsWith(`${work.kind}:`) && heldNow(name) !== undefined)
          .map((name) => name.slice(work.kind.length + 1)),
      lost: (piece) => this.#drop(nameOf(piece), work),
    };
  }

  others(): readonly ProcessStanding[] {
    return this.#others;
  }

  /** One sign of life and one look at what there is to do; never two at a time. */
  look(): Promise<void> {
    if (this.#isStopping) return Promise.resolve();
    this.#looking ??= this.#look()
      .then(
        () => this.#noteSilence(null),
        (error: unknown) => this.#noteSilence(error),
      )
      .finally(() => {
        this.#looking = null;
      });
    return this.#looking;
  }

  /** Told once for as long as it lasts. */
  #noteSilence(error: unknown): void {
    const { logger } = this.#options;
    if (error === null && this.#isSilent) logger.info('signs of life are given again');
    if (error !== null && !this.#isSilent)
      logger.warn({ err: error }, 'no sign of life can be given: others may take over');
    this.#isSilent = error !== null;
  }

  async #look(): Promise<void> {
    const { processes, leases, standing } = this.#options;
    await processes.beat(this.id, JSON.stringify(standing()));
    await this.#renew();
    const workers = await this.#countWorkers();
    for (const work of [...this.#works]) await leases.ensure(await this.#namesOf(work));
    const rows = await leases.list();
    const atMs = performance.now();
    this.#leaseWatch.look(new Map(rows.map(({ name, beat }) => [name, beat])), atMs);
    for (const work of [...this.#works]) await this.#move(work, rows, workers(work.kind));
  }

  async #namesOf({ kind, pieces }: SharedWork): Promise<string[]> {
    return (await pieces()).map((piece) => `${kind}:${piece}`);
  }

  async #renew(): Promise<void> {
    const begunMs = performance.now();
    const grants = [...this.#held.values()].map(({ grant }) => grant);
    const kept = new Set(await this.#options.leases.renew(grants));
    for (const { name } of grants) {
      const held = this.#held.get(name);
      if (held === undefined) continue;
      if (kept.has(name)) held.renewedMs = begunMs;
      else this.#drop(name, this.#workOf(name));
    }
  }

  /** Living processes by the kind of work they do; kinds are named like services or belong to one. */
  async #countWorkers(): Promise<(kind: string) => number> {
    const rows = await this.#options.processes.list();
    const atMs = performance.now();
    this.#processWatch.look(new Map(rows.map(({ id, beat }) => [id, beat])), atMs);
    const still = (id: string) => (id === this.id ? 0 : this.#processWatch.stillMs(id, atMs));
    for (const row of rows) if (still(row.id) > forgetMs) await this.#options.processes.forget(row);
    const alive = rows.filter(({ id }) => still(id) < this.#lapseMs);
    this.#others = alive.flatMap(({ standing }) => {
      const read = standingSchema.safeParse(JSON.parse(standing));
      return read.success ? [read.data] : [];
    });
    return (kind) => Math.max(1, this.#others.filter(({ services }) => services.includes(kind)).length);
  }

  async #move(work: SharedWork, rows: readonly LeaseRow[], workers: number): Promise<void> {
    const names = new Set(await this.#namesOf(work));
    const atMs = performance.now();
    const moves = fairMoves({
      leases: rows.filter(({ name }) => names.has(name)).map((lease) => this.#asHeld(lease)),
      holder: this.id,
      workers,
      isLapsed: ({ name }) => this.#leaseWatch.stillMs(name, atMs) >= this.#lapseMs,
    });
    for (const { name } of moves.handBack) this.#handBack(work, name);
    for (const lease of moves.take) await this.#take(work, lease);
  }

  /** A lease under our name of which we know nothing (its taking was never answered) is to be had. */
  #asHeld(lease: LeaseRow): LeaseRow {
    return lease.holder === this.id && !this.#held.has(lease.name) ? { ...lease, holder: null } : lease;
  }

  async #take(work: SharedWork, lease: LeaseRow): Promise<void> {
    const begunMs = performance.now();
    const grant = await this.#options.leases.take(lease, this.id);
    if (grant === null) return;
    this.#held.set(lease.name, { grant, renewedMs: begunMs });
    const from = lease.holder === null ? 'free' : `taken over from ${lease.holder}`;
    this.#options.logger.info({ lease: lease.name, from }, 'work taken');
    work.onChanged?.();
  }

  #handBack(work: SharedWork, name: string): void {
    const held = this.#held.get(name);
    if (held === undefined || this.#leaving.has(name)) return;
    const leaving = (async () => {
      await work.leave?.(name.slice(work.kind.length + 1));
      this.#held.delete(name);
      await this.#options.leases.release(held.grant);
      work.onChanged?.();
    })()
      .catch((error: unknown) =>
        this.#options.logger.error({ err: error, lease: name }, 'work not handed back'),
      )
      .finally(() => this.#leaving.delete(name));
    this.#leaving.set(name, leaving);
  }

  #drop(name: string, work: SharedWork | undefined): void {
    if (!this.#held.delete(name)) return;
    this.#options.logger.warn({ lease: name }, 'work lost to another process');
    work?.onChanged?.();
  }

  #workOf(name: string): SharedWork | undefined {
    return this.#works.find(({ kind }) => name.startsWith(`${kind}:`));
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    await this.#looking;
    this.#isStopping = true;
    await Promise.all(this.#leaving.values());
    for (const { grant } of this.#held.values()) await this.#options.leases.release(grant).catch(() => {});
    this.#held.clear();
    const rows = await this.#options.processes.list().catch(() => []);
    const own = rows.find(({ id }) => id === this.id);
    if (own !== undefined) await this.#options.processes.forget(own).catch(() => {});
  }
}
