import { connectAsync, type MqttClient } from 'mqtt';
import type { Records } from '../../services/records/port.ts';
import type { Pile, Yard } from '../../shared/yard/yard.ts';

const minuteMs = 60_000;

export interface SplitYard {
  readonly yard: Yard;
  readonly ownerId: string;
  readonly piles: readonly { readonly pile: Pile; readonly probeId: string; readonly channel: string }[];
}

/** Yards with an owner who wants pressing texts, and piles of one probe each; everything began days ago. */
export async function furnishYards(records: Records, yards: number, pilesEach: number): Promise<SplitYard[]> {
  const startedMs = Date.now() - 3 * 86_400_000;
  const made: SplitYard[] = [];
  for (let number = 1; number <= yards; number += 1) {
    const yard = await records.yards.create({
      ...{ name: `Yard ${number}`, timeZone: 'Europe/Dublin', temperatureUnit: 'C', altitudeMetres: 5 },
    });
    const owner = await records.people.create(
      {
        ...{ yardId: yard.id, login: `owner${number}`, name: `Owner ${number}`, role: 'owner' },
        ...{ phone: `+4416329600${10 + number}`, receivesTexts: true, textsFrom: 'high' },
        ...{ disabled: false, language: 'en' },
      },
      null,
    );
    const piles = [];
    for (let index = 1; index <= pilesEach; index += 1) {
      const named = { yardId: yard.id, name: `Cage ${number}${index}`, place: `bay ${index}` };
      const pile = await records.piles.create({ ...named, method: 'static-cage', startedMs });
      const probeId = `urn:dev:ow:28139bbb0b0${number}${index}000`;
      const probe = { id: probeId, yardId: yard.id, label: `probe ${number}${index}` };
      await records.probes.create({ ...probe, createdMs: startedMs, expectedIntervalSeconds: 60 }, 'hash');
      const channel = `${probeId}_core`;
      await records.placements.create({
        ...{ yardId: yard.id, pileId: pile.id, channel, quantity: 'temperature', position: 'core' },
        ...{ depthMetres: 0.6, fromMs: startedMs, toMs: null },
      });
      piles.push({ pile, probeId, channel });
    }
    made.push({ yard, ownerId: owner.id, piles });
  }
  return made;
}

/** Warms from 60 to 75 C within half an hour, after an hour at 60, and stays: one ceiling alarm, whoever judges it. */
const celsiusAt = (minute: number) =>
  minute < 60 ? 60 + (minute % 3) * 0.0625 : Math.min(75, 60 + (minute - 60) / 2) + (minute % 3) * 0.0625;

/** Every pile's readings, a minute of its past every `paceMs`, each acknowledged by the broker before it counts. */
export async function startStream(
  brokerUrl: string,
  yards: readonly SplitYard[],
  minutes: number,
  paceMs: number,
) {
  const client: MqttClient = await connectAsync(brokerUrl, { clientId: 'all-probes', reconnectPeriod: 200 });
  const startMs = Math.floor(Date.now() / 1000) * 1000 - minutes * minuteMs - 5 * minuteMs;
  const probes = yards.flatMap(({ yard, piles }) => piles.map((pile) => ({ yard, ...pile })));
  let minute = 0;
  let acknowledged = 0;
  const timer = setInterval(() => {
    if (minute >= minutes) return clearInterval(timer);
    const t = (startMs + minute * minuteMs) / 1000;
    for (const { yard, probeId, channel } of probes) {
      const pack = JSON.stringify([{ n: channel, u: 'Cel', v: celsiusAt(minute), t }]);
      client.publish(`tilth/${yard.id}/${probeId}/readings`, pack, { qos: 1 }, (error) => {
        if (!error) acknowledged += 1;
      });
    }
    minute += 1;
  }, paceMs);
  return {
    minute: () => minute,
    total: minutes * probes.length,
    acknowledged: () => acknowledged,
    stop: async () => {
      clearInterval(timer);
      await client.endAsync(true);
    },
  };
}
