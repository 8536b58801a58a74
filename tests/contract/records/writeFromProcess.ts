import { openRecords, type RecordsOptions } from '../../../services/records/openRecords.ts';

/** Run as a program of its own: counts `times` items into the quarantine of the records it is told to open. */
const [options = '{}', times = '0'] = process.argv.slice(2);
const records = await openRecords(JSON.parse(options) as RecordsOptions);
for (let count = 0; count < Number(times); count++) {
  await records.quarantine.add({
    receivedMs: count,
    topic: `from ${process.pid}`,
    probe: null,
    reason: 'test',
    payloadStart: new Uint8Array(8),
    payloadBytes: 8,
  });
}
await records.close();
