import { randomUUID } from 'node:crypto';
import { everything, type ProcessStanding, type WorkSharing } from './port.ts';

/** One process is the whole yard: nothing is asked of anybody. */
export function workAlone(standing: () => ProcessStanding): WorkSharing {
  return {
    processId: randomUUID(),
    share: () => everything,
    processes: () => [standing()],
    stop: async () => {},
  };
}
