import { statfs } from 'node:fs/promises';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import type { MetricFamily } from '../../web/port.ts';
import { counter, gauge, gauges, info } from './family.ts';

type DelayHistogram = ReturnType<typeof monitorEventLoopDelay>;
const nanosecondsPerSecond = 1e9;

/** Watches this process; `stop` ends the watching. */
export interface ProcessMeter {
  families(): Promise<MetricFamily[]>;
  stop(): void;
}

/** Starts watching how late the event loop turns: what makes everything else slow shows there first. */
export function startProcessMeter(dataFolder: string, version: string): ProcessMeter {
  const delay = monitorEventLoopDelay({ resolution: 20 });
  delay.enable();
  return {
    async families() {
      const space = await statfs(dataFolder);
      const { rss, heapUsed } = process.memoryUsage();
      const { user, system } = process.cpuUsage();
      return [
        info('tilth_build', 'What runs.', { version, node: process.versions.node }),
        gauge('process_start_time_seconds', 'When the process began, Unix time.', startSeconds()),
        counter('process_cpu_seconds', 'Processor time used.', (user + system) / 1e6),
        gauge('process_resident_memory_bytes', 'Memory the process holds.', rss),
        gauge('tilth_heap_used_bytes', 'Memory in use by objects of the program.', heapUsed),
        eventLoop(delay),
        gauge(
          'tilth_data_disk_free_bytes',
          'Room left on the disk the data folder is on.',
          space.bavail * space.bsize,
        ),
      ];
    },
    stop: () => {
      delay.disable();
    },
  };
}

function startSeconds(): number {
  return Math.round(performance.timeOrigin) / 1000;
}

/** Of the time since it was last read; 0 while there is nothing to tell. */
function eventLoop(delay: DelayHistogram): MetricFamily {
  const statistics = {
    median: delay.percentile(50),
    '99th-percentile': delay.percentile(99),
    most: delay.max,
  };
  const samples = Object.entries(statistics).map(([statistic, nanoseconds]) => ({
    labels: { statistic },
    value: delay.count === 0 ? 0 : nanoseconds / nanosecondsPerSecond,
  }));
  delay.reset();
  return gauges(
    'tilth_event_loop_delay_seconds',
    'How late the event loop turned since this page was last read.',
    samples,
  );
}
