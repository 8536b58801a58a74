import type { PileView, ProbeCredential } from '../../shared/api/types.ts';
import type { ApiClient } from './apiClient.ts';

const minuteMs = 60_000;

/** Who is texted; a number of the range kept for stories. */
export const phoneNumber = '+441632960123';

export interface HotPile {
  readonly pile: PileView;
  readonly probe: ProbeCredential;
}

/** Takes a new yard through its first set-up: an owner, a keeper who is texted, a cage with one probe in its core. */
export async function setUpHotPile(client: ApiClient, setUpToken: string | null): Promise<HotPile> {
  await client.post('/api/links/first-set-up', {
    token: setUpToken,
    yard: { name: 'Gannet Row', timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 },
    person: { name: 'Wren', login: 'wren', password: 'leaf mould and seaweed' },
  });
  await client.post('/api/people', {
    login: 'ash',
    name: 'Ash',
    role: 'keeper',
    phone: phoneNumber,
    receivesTexts: true,
    textsFrom: 'low',
  });
  const pile = await client.post<PileView>('/api/piles', {
    name: 'Cage 2',
    place: 'bay 3',
    method: 'static-cage',
    startedMs: Date.now() - 3 * 86_400_000,
  });
  const probe = await client.post<ProbeCredential>('/api/probes', {
    id: 'urn:dev:ow:28139bbb0b00001f',
    label: 'probe 1',
  });
  await client.post('/api/placements', {
    pileId: pile.id,
    channel: `${probe.probe.id}_core`,
    quantity: 'temperature',
    position: 'core',
    depthMetres: 0.6,
    fromMs: pile.startedMs,
  });
  return { pile, probe };
}

/** Core temperatures five minutes apart, the last one at `endMs`, as the probe would send them in one buffered pack. */
export function packOfCores(probe: ProbeCredential, celsius: readonly number[], endMs: number): string {
  const firstMs = endMs - (celsius.length - 1) * 5 * minuteMs;
  const pack = celsius.map((v, index) => ({ n: 'core', u: 'Cel', v, t: index * 300 }));
  return JSON.stringify([{ bn: `${probe.probe.id}_`, bt: Math.round(firstMs / 1000) }, ...pack]);
}

/** Warming, then an hour and more above the ceiling of 71 C. */
export const throughTheCeiling: readonly number[] = [
  64, 66, 68, 69.5, 70.5, 72, 72.5, 73, 73, 73, 73, 73, 73, 73, 73, 73, 73,
];

/** Back under the ceiling less its deadband, for long enough. */
export const coolingDown: readonly number[] = [68, 66, 65, 64, 63.5, 63, 62.5, 62, 62, 62, 62, 62, 62, 62];
