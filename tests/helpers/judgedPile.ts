import { join } from 'node:path';
import { pino } from 'pino';
import { openRecords } from '../../services/records/openRecords.ts';
import type { Message } from '../../services/records/port.ts';
import { startRules } from '../../services/rules/startRules.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import type { ServiceFacts } from '../../shared/rules/serviceFacts.ts';

const channel = 'urn:dev:ow:28139bbb0b000001_core';
const probeId = 'urn:dev:ow:28139bbb0b000001';
const minuteMs = 60_000;

/** A pile with one core probe and one keeper who gets texts, judged by the real rules over a given store. */
export async function startJudgedPile(
  folder: string,
  series: SeriesStore,
  startMs: number,
  services?: () => ServiceFacts,
) {
  const records = await openRecords({ kind: 'sqlite', file: join(folder, 'records.sqlite') });
  const place = { timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 } as const;
  const { id: yardId } = await records.yards.create({ name: 'Gannet Row', ...place });
  const kind = { place: 'bay 3', method: 'static-cage', startedMs: startMs } as const;
  const { id: pileId } = await records.piles.create({ yardId, name: 'Cage 2', ...kind });
  const person = { login: 'wren', name: 'Wren', role: 'keeper', phone: '+441632960123' } as const;
  const wishes = { receivesTexts: true, textsFrom: 'medium', disabled: false } as const;
  await records.people.create({ yardId, ...person, ...wishes }, null);
  const probe = { id: probeId, yardId, label: 'Probe 1', createdMs: startMs, expectedIntervalSeconds: 300 };
  await records.probes.create(probe, 'hash');
  const where = { quantity: 'temperature', position: 'core', depthMetres: 0.6 } as const;
  await records.placements.create({ yardId, pileId, channel, ...where, fromMs: startMs, toMs: null });
  let nowMs = startMs;
  const rules = await startRules({
    records,
    series,
    clock: { nowMs: () => nowMs },
    config: { settleSeconds: 60, tickMilliseconds: 3_600_000, publicUrl: () => null },
    onCommitted: () => {},
    ...(services === undefined ? {} : { services }),
    logger: pino({ level: 'silent' }),
  });
  return {
    /** Stores the core's temperature at a minute after the start and judges it two minutes later. */
    async measure(minutes: number, value: number): Promise<void> {
      const timeMs = startMs + minutes * minuteMs;
      await series.append([{ channel, timeMs, rawValue: value, value, quality: 'good', reason: null }]);
      nowMs = timeMs + 2 * minuteMs;
      await rules.settle();
    },
    /** Texts that wait to be sent: the minute they were written in, to whom, how urgent and the first words. */
    async texts() {
      const messages: readonly Message[] = await records.messages.list(yardId, 100);
      return messages.map(({ createdMs, address, priority, text }) => {
        const minute = (createdMs - startMs) / minuteMs;
        return { minute, address, priority, begin: text.slice(0, 40) };
      });
    },
    async stop(): Promise<void> {
      await rules.stop();
      await records.close();
    },
  };
}
