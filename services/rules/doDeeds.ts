import { type Deed, DeedGone, LeaseLost, RecordsError } from '../records/port.ts';
import type { RulesOptions } from './options.ts';
import type { Work } from './work.ts';

/** Deeds nobody came back for are forgotten after this long. */
const keptMs = 3_600_000;
const sweepEveryMs = 600_000;

/**
 * Does what people asked for in processes that do not judge. A deed and its answer are one transaction: whatever dies in
 * between, it is done once and said so, or not at all.
 */
export function doDeeds(
  { records, logger, share, onDeedsAnswered }: RulesOptions,
  work: Work,
): { look(): void; settled(): Promise<void> } {
  let looking: Promise<void> | null = null;
  let again = false;
  let sweptAt = performance.now();

  async function run(): Promise<void> {
    do {
      again = false;
      const yards = share?.held() ?? [];
      const waiting = yards.length === 0 ? [] : await records.deeds.waiting(yards);
      for (const deed of waiting) await work.enqueue(() => doOne(deed));
      if (waiting.length > 0) onDeedsAnswered?.();
      if (performance.now() - sweptAt > sweepEveryMs) {
        sweptAt = performance.now();
        await records.deeds.sweep(Date.now() - keptMs);
      }
    } while (again);
  }

  async function doOne({ id, alarmId, event }: Deed): Promise<void> {
    try {
      await work.act(alarmId, event, id);
    } catch (error) {
      // Taken back meanwhile, or another process's to do: nothing was stored.
      if (error instanceof DeedGone || error instanceof LeaseLost) return;
      if (!(error instanceof RecordsError)) throw error;
      const { field, message } = error;
      await records.deeds.refuse(id, { kind: 'refused', field, message });
    }
  }

  return {
    look() {
      again = true;
      looking ??= run()
        .catch((error: unknown) => logger.error({ err: error }, 'what people asked for could not be done'))
        .finally(() => {
          looking = null;
        });
    },
    settled: async () => {
      await looking;
    },
  };
}
