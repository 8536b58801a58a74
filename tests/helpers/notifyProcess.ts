/**
 * The notifier as a process of its own, to be killed: `node notifyProcess.ts '<plan as JSON>'`. It kills itself without
 * warning at a point of the `nth` message's way, or runs until it is stopped. Prints one line once it runs.
 */
import { pino } from 'pino';
import type { DeliveryPoint } from '../../services/notify/deliver.ts';
import { smsGatewaySchema } from '../../services/notify/port.ts';
import { createSmsHttp } from '../../services/notify/smsHttp.ts';
import { startNotify } from '../../services/notify/startNotify.ts';
import { openRecords, type RecordsOptions } from '../../services/records/openRecords.ts';

export interface NotifyProcessPlan {
  readonly records: RecordsOptions;
  readonly gatewayUrl: string;
  readonly leaseMs: number;
  readonly killAt: DeliveryPoint | null;
  readonly nth: number;
}

const plan = JSON.parse(process.argv[2] ?? '') as NotifyProcessPlan;
const records = await openRecords(plan.records);
const gateway = smsGatewaySchema.parse({ url: plan.gatewayUrl });
let passed = 0;

const notify = startNotify({
  records,
  channels: [createSmsHttp(gateway, Date.now)],
  clock: { nowMs: Date.now },
  logger: pino({ level: 'silent' }),
  leaseMs: plan.leaseMs,
  atPoint: async (point) => {
    if (point !== plan.killAt) return;
    passed += 1;
    if (passed === plan.nth) process.kill(process.pid, 'SIGKILL');
  },
});
console.log('running');
process.once('SIGTERM', () => {
  void notify.stop().then(() => records.close());
});
