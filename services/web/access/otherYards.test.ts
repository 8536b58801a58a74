import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startSession } from '../sign-in/sessions.ts';
import { startWeb, type Web } from '../startWeb.ts';
import { openEvents } from '../testing/eventClient.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';

let base: TestWeb;
let web: Web;
let otherYardId: string;
/** Cookie of a keeper of the other yard. */
let stranger: string;
beforeEach(async () => {
  base = await openTestWeb();
  web = await startWeb({ ...base.options, config: { ...base.options.config, publicUrl: null } });
  const { records, yard, people } = base;
  const { id, ...values } = yard;
  otherYardId = (await records.yards.create({ ...values, name: 'Other Yard' })).id;
  const { id: _, ...keeper } = people.keeper;
  const person = await records.people.create({ ...keeper, yardId: otherYardId, login: 'stranger' }, null);
  stranger = await startSession(records, person.id, testNowMs);
});
afterEach(async () => {
  await web.stop();
  await base.close();
});

const own = () => base.cookies.keeper['tilth-session']!;
const get = async (session: string, path: string) =>
  (await fetch(web.url + path, { headers: { cookie: `tilth-session=${session}` } })).json();

/** Sets a message of a probe of this yard aside, as ingest does. */
async function setAside(yardId: string) {
  const item = {
    receivedMs: testNowMs,
    probe: null,
    reason: 'no SenML',
    topic: `tilth/${yardId}/p/readings`,
  };
  const payloadStart = Buffer.from(`readings of ${yardId}`);
  return base.records.quarantine.add({ ...item, payloadStart, payloadBytes: payloadStart.length });
}

describe('a keeper of another yard', () => {
  it('sees nothing of this yard’s quarantine, not even how much there is', async () => {
    await setAside(base.yard.id);
    expect(await get(stranger, '/api/quarantine')).toEqual({ total: 0, items: [] });
    expect(await get(own(), '/api/quarantine')).toMatchObject({
      total: 1,
      items: [{ payloadText: `readings of ${base.yard.id}` }],
    });
    await setAside(otherYardId);
    expect(await get(stranger, '/api/quarantine')).toMatchObject({
      total: 1,
      items: [{ payloadText: `readings of ${otherYardId}` }],
    });
  });

  it('hears no event of this yard, of whatever kind', async () => {
    const listen = (session: string) =>
      openEvents(`${web.url}/api/live`, { cookie: `tilth-session=${session}` });
    const [ours, theirs] = [await listen(own()), await listen(stranger)];
    const yardId = base.yard.id;
    web.announce([
      { kind: 'pile', pileId: 'p', yardId },
      { kind: 'alarm', alarmId: 'a', yardId },
      { kind: 'probe', probeId: 'b', yardId },
      ...(['yard', 'messages', 'quarantine'] as const).map((kind) => ({ kind, yardId })),
    ]);
    web.announce([{ kind: 'yard', yardId: otherYardId }]);
    const changes = ({ events }: typeof ours) =>
      events.flatMap(({ name, data }) => (name === 'change' ? [(data as { kind: string }).kind] : []));
    await ours.until(() => changes(ours).includes('quarantine'));
    await theirs.until(() => changes(theirs).length > 0);
    expect(changes(ours)).toEqual(['pile', 'alarm', 'probe', 'yard', 'messages', 'quarantine']);
    expect(changes(theirs)).toEqual(['yard']);
    for (const client of [ours, theirs]) client.close();
  });
});
