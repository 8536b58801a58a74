import { advance, rewind } from '../../shared/rules/assess.ts';
import { silentLimitMinutes } from '../../shared/rules/conditions/probeSilent.ts';
import { createProbeSubject, type ProbeSubject } from '../../shared/rules/probeSubject.ts';
import {
  addProbeReading,
  heardNow,
  type ProbeFacts,
  type ProbeReading,
  placesAt,
  setProbeFacts,
} from '../../shared/rules/probeWindow.ts';
import type { YardId } from '../../shared/yard/yard.ts';
import type { SeriesStore, StoredReading } from '../series/port.ts';
import { addChanges, type Desk, deskOf } from './desk.ts';

export interface ProbeDesk extends Desk {
  readonly probe: ProbeSubject;
  pending: (ProbeReading & { readonly sequence: number })[];
  /** Newest reading that has come in, judged or not: what the yard's silence is counted by. */
  heardMs: number;
}

/** A probe's desk of which nothing has been heard yet. */
export function createProbeDesk(
  yardId: YardId,
  facts: ProbeFacts,
  isYardSilent: (atMs: number) => boolean,
): ProbeDesk {
  const probe = createProbeSubject(yardId, facts, isYardSilent);
  const where = () => whereIs(probe.window.view.facts);
  return Object.assign(deskOf(probe.subject, where), {
    probe,
    pending: [],
    heardMs: Number.NEGATIVE_INFINITY,
  });
}

export function setFactsOfProbe(desk: ProbeDesk, facts: ProbeFacts): void {
  setProbeFacts(desk.probe.window, facts);
}

const dayMs = 86_400_000;

/** What the store last heard of a channel. */
export interface LastHeard {
  readonly last: StoredReading;
  readonly lastGood: StoredReading | null;
}

/**
 * The readings a probe's judgement stands on after a restart: the last good one of each channel and, where it is not the
 * last, those of the day before the last, because how many in a row were bad counts. Only what was stored up to
 * `sequence`: what came later is on its way by itself, and would count twice.
 */
export async function lastReadings(
  series: Pick<SeriesStore, 'range'>,
  latest: readonly LastHeard[],
  sequence: number,
): Promise<StoredReading[]> {
  const lists = latest.map(async ({ last, lastGood }) => {
    if (last.sequence > sequence) return await readingsBefore(series, last, sequence);
    if (last.quality === 'good') return [last];
    const fromMs = Math.max(last.timeMs - dayMs, (lastGood?.timeMs ?? Number.NEGATIVE_INFINITY) + 1);
    const since = await rangeOf(series, last, fromMs);
    return lastGood === null ? since : [lastGood, ...since];
  });
  return (await Promise.all(lists)).flat();
}

/** How far back, days, is looked for what a probe said before a backlog began; most began minutes ago. */
const lookBackDays = [1, 8, 64];

async function readingsBefore(
  series: Pick<SeriesStore, 'range'>,
  last: StoredReading,
  sequence: number,
): Promise<StoredReading[]> {
  for (const days of lookBackDays) {
    const all = await rangeOf(series, last, last.timeMs - days * dayMs);
    const judged = all.filter((reading) => reading.sequence <= sequence);
    if (judged.length === 0) continue;
    const goodAt = judged.findLastIndex(({ quality }) => quality === 'good');
    return goodAt === -1 ? judged : judged.slice(goodAt);
  }
  return [];
}

const rangeOf = (series: Pick<SeriesStore, 'range'>, last: StoredReading, fromMs: number) =>
  series.range({ channel: last.channel, fromMs, toMs: last.timeMs + 1, quality: 'all' });

/** Puts what the store last heard of it into a fresh desk at a restart. */
export function hearStored(desk: ProbeDesk, readings: StoredReading[]): void {
  for (const reading of readings.sort((a, b) => a.timeMs - b.timeMs)) {
    if (isFromFuture(reading)) continue;
    addProbeReading(desk.probe.window, reading);
    desk.heardMs = Math.max(desk.heardMs, reading.timeMs);
  }
  // These are not gaps between readings: what a probe usually leaves is learnt anew.
  desk.probe.window.gapsMs.length = 0;
  setProbeFacts(desk.probe.window, desk.probe.window.view.facts);
}

/** Takes a stored reading, to be judged when its time has come. */
export function hear(desk: ProbeDesk, reading: StoredReading, nowMs: number): void {
  const taken = isFromFuture(reading)
    ? { ...reading, ...heardNow(desk.probe.window, reading, nowMs) }
    : reading;
  desk.pending.push(taken);
  desk.heardMs = Math.max(desk.heardMs, taken.timeMs);
}

/** Its time cannot be believed: ingest has marked it bad for that. */
export function isFromFuture({ quality, reason }: Pick<StoredReading, 'quality' | 'reason'>): boolean {
  return quality === 'bad' && reason === 'future-time';
}

/** Judges a probe up to an instant. Readings older than its newest are taken but not judged again. */
export function advanceProbe(desk: ProbeDesk, toMs: number, nowMs: number): void {
  const ready = desk.pending.filter((reading) => reading.timeMs <= toMs).sort((a, b) => a.timeMs - b.timeMs);
  if (ready.length > 0) desk.pending = desk.pending.filter((reading) => reading.timeMs > toMs);
  if (ready.length === 0 && desk.nextTickMs() > toMs) return;
  const { window, subject } = desk.probe;
  const { lastHeardMs } = window.view;
  for (const reading of ready) if (reading.timeMs <= lastHeardMs) addProbeReading(window, reading);
  const fresh = ready.filter((reading) => reading.timeMs > lastHeardMs);
  if (fresh.length > 0 && fresh[0]!.timeMs <= subject.lastInstantMs)
    rewind(subject, fresh[0]!.timeMs, lastHeardMs);
  addChanges(desk, advance(subject, fresh, toMs, nowMs));
}

/** Whether it stands somewhere at an instant, and has been quiet for too long by then. */
export function quietAt(
  desk: ProbeDesk,
  atMs: number,
): { readonly placed: boolean; readonly silent: boolean } {
  const places = placesAt(desk.probe.window.view, atMs);
  if (places.length === 0) return { placed: false, silent: false };
  const sinceMs = Math.max(desk.heardMs, Math.min(...places.map((place) => place.fromMs)));
  return { placed: true, silent: atMs - sinceMs > silentLimitMinutes(desk.probe.window.view) * 60_000 };
}

function whereIs(facts: ProbeFacts): ReturnType<Desk['where']> {
  const place = facts.places.find((one) => one.toMs === null);
  return {
    name: facts.label,
    place: place?.pileName || place?.place || '',
    pileId: place?.pileId ?? null,
  };
}
