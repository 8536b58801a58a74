import { fileURLToPath } from 'node:url';
import { startWeb, type Web } from '../../services/web/startWeb.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../../services/web/testing/openTestWeb.ts';
import { addPile, addPlacement, hourMs, reading, statusOf } from '../../services/web/testing/testData.ts';
import type { Pile } from '../../shared/yard/yard.ts';

/** The real web service over real stores with many piles, their probes and two days of readings. */
export interface BenchYard {
  readonly web: Web;
  readonly base: TestWeb;
  readonly piles: readonly Pile[];
  /** Opens a wall without signing in. */
  readonly wallUrl: string;
  /** A pile was judged anew: stores it and tells every screen, as rules do. */
  judge(pile: Pile, coreCelsius: number): Promise<void>;
  stop(): Promise<void>;
}

const quarterMs = hourMs / 4;
const positions = ['core', 'shoulder', 'edge'] as const;

export async function startBenchYard(count: number): Promise<BenchYard> {
  const base = await openTestWeb();
  const dashboardsFolder = fileURLToPath(new URL('../../dashboards/dist', import.meta.url));
  const web = await startWeb({
    ...base.options,
    config: { ...base.options.config, publicUrl: null, dashboardsFolder },
  });
  const openedAt = performance.now();
  const clock = setInterval(() => {
    base.clock.ms = testNowMs + Math.round(performance.now() - openedAt);
  }, 100);
  const piles: Pile[] = [];
  for (let number = 1; number <= count; number += 1) piles.push(await furnish(base, number));
  return {
    ...{ web, base, piles },
    wallUrl: `${web.url}/wall?key=${base.cookies.wall['tilth-wall']}`,
    async judge(pile, coreCelsius) {
      const nowMs = base.clock.ms;
      await base.records.statuses.save(statusOf(pile, { assessedMs: nowMs, coreTimeMs: nowMs, coreCelsius }));
      web.announce([{ kind: 'pile', pileId: pile.id, yardId: pile.yardId }]);
    },
    async stop() {
      clearInterval(clock);
      await web.stop();
      await base.close();
    },
  };
}

async function furnish(base: TestWeb, number: number): Promise<Pile> {
  const pile = await addPile(base, { name: `Cage ${number}`, place: `bay ${Math.ceil(number / 4)}` });
  await base.records.statuses.save(statusOf(pile));
  for (const position of positions) {
    const channel = `urn:dev:example:bench-${number}_${position}`;
    await addPlacement(base, { pileId: pile.id, channel, position });
    const steps = position === 'core' ? 192 : 1;
    const course = (step: number) => 60 + Math.sin((number + step) / 20) * 5;
    await base.series.append(
      Array.from({ length: steps }, (_, step) =>
        reading(channel, testNowMs - step * quarterMs, course(step)),
      ),
    );
  }
  return pile;
}
