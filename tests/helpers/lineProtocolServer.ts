import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { eventually } from './eventually.ts';
import { freePort } from './mosquitto.ts';
import { firstExisting } from './requirement.ts';

export const victoriaMetricsProgram = firstExisting(['/usr/bin/victoria-metrics']);

/** One exported series: what was written of one field of one channel. */
export interface ExportedSeries {
  readonly metric: { readonly channel: string };
  readonly values: readonly number[];
  readonly timestamps: readonly number[];
}

/** A real server that takes line protocol at /api/v2/write; it answers no InfluxQL and serves to prove writing only. */
export async function startVictoriaMetrics(folder: string) {
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const flags = ['-storageDataPath', join(folder, 'victoria'), '-httpListenAddr', `127.0.0.1:${port}`];
  const server = spawn(victoriaMetricsProgram!, [...flags, '-retentionPeriod', '10y'], { stdio: 'ignore' });
  await eventually('the server answers', () => answers(url), 30_000);
  return {
    url,
    /** What it holds under a name (measurement_field), after making what it took visible. */
    async exported(name: string): Promise<ExportedSeries[]> {
      await fetch(`${url}/internal/force_flush`);
      const answer = await fetch(`${url}/api/v1/export?${new URLSearchParams({ 'match[]': name })}`);
      const lines = (await answer.text()).split('\n').filter((line) => line !== '');
      return lines.map((line) => JSON.parse(line) as ExportedSeries);
    },
    async stop() {
      const gone = once(server, 'exit');
      server.kill();
      await gone;
    },
  };
}

async function answers(url: string): Promise<boolean> {
  try {
    return (await fetch(`${url}/health`)).ok;
  } catch {
    return false;
  }
}
