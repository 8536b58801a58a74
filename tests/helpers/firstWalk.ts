import type { Page } from 'playwright-core';
import { pick, pressOn, tabTo, typeInto } from './keyboard.ts';
import { type ProbeByHand, readCredential, startProbe } from './probeByHand.ts';
import type { YardProcess } from './yardProcess.ts';

/** Told at each stage of the walk, once it is drawn. */
export type AtStage = (stage: string) => Promise<void>;

/** What the sensors of the invented probe say on the bench; one of them is still cold from the ice later on. */
const bench = { core: 15, edge: 15.1, moisture: 0.6, battery: 91 };
const inIce = 0.4375;

/** Walks a stranger through a new yard by keyboard alone, with a real probe over MQTT, from the printed link to the wall. */
export async function walkFirstSteps(page: Page, yard: YardProcess, at: AtStage): Promise<ProbeByHand> {
  await makeYard(page, yard, at);
  await tellOneself(page, at);
  await startPile(page, at);
  const probe = await enrolProbe(page, at);
  await checkInIce(page, probe, at);
  await placeSensors(page, probe, at);
  await sendTest(page, at);
  await hangWall(page, at);
  return probe;
}

const heading = (page: Page, name: string) => page.getByRole('heading', { name, exact: true }).waitFor();

async function makeYard(page: Page, yard: YardProcess, at: AtStage): Promise<void> {
  await page.goto(`${yard.url}/#/set-up/${yard.setUpToken}`);
  await heading(page, 'Your yard');
  await at('yard');
  await typeInto(page, 'Name of the yard', 'Gannet Row');
  await pick(page, 'Temperatures in', 'C');
  await pressOn(page, 'Next');
  await heading(page, 'You');
  await typeInto(page, 'Your name', 'Wren');
  await typeInto(page, 'Sign-in name', 'wren');
  await typeInto(page, 'Password', 'short');
  await pressOn(page, 'Start this yard');
  await page.locator('.field .wrong').waitFor();
  await at('you');
  await typeInto(page, 'Password', 'leaf mould and seaweed');
  await pressOn(page, 'Start this yard');
  await heading(page, 'People');
}

async function tellOneself(page: Page, at: AtStage): Promise<void> {
  await typeInto(page, 'Your mobile number', '+441632960123');
  await pressOn(page, 'Save the number');
  await page.getByText('Saved.').waitFor();
  await pressOn(page, 'Add a person');
  await typeInto(page, 'Name', 'Sorrel');
  await typeInto(page, 'Sign-in name', 'sorrel');
  await pick(page, 'What they may do', 'may look and');
  await pressOn(page, 'Add');
  await page.getByText('Give this link to Sorrel').waitFor();
  await at('people');
  await pressOn(page, 'Next: First pile');
}

async function startPile(page: Page, at: AtStage): Promise<void> {
  await heading(page, 'First pile');
  await page.getByText('Do worms live in it').waitFor();
  await at('pile-question');
  // Worms, only leaves, hot already, turned, a fan: no. Channels: yes.
  for (const next of ['nothing but leaves', 'hot time', 'turn it', 'fan', 'channels']) {
    await pressOn(page, 'No');
    await page.locator('.question-words', { hasText: next }).waitFor();
  }
  await pressOn(page, 'Yes');
  await page.getByText('static cage, passively aerated').waitFor();
  await page.getByText('Above 71 C in its core').waitFor();
  await at('pile-method');
  await typeInto(page, 'Name', 'Cage 1');
  await typeInto(page, 'Where it stands', 'by the gate');
  await pressOn(page, 'Start this pile');
  await pressOn(page, 'Next: Probe');
}

async function enrolProbe(page: Page, at: AtStage): Promise<ProbeByHand> {
  await heading(page, 'Probe');
  await typeInto(page, 'Label on the probe', 'Stick 1');
  await pressOn(page, 'Make its credential');
  await page.getByText('Waiting for its first message').waitFor();
  await page.locator('.qr').waitFor();
  const credential = await readCredential(page);
  await startProbe({ ...credential, password: 'not-its-password' }).then(
    () => {
      throw new Error('a wrong password was let in');
    },
    () => {},
  );
  await page.getByText('showed a wrong password').waitFor();
  await at('probe-waits');
  const probe = await startProbe(credential);
  await probe.sendRaw(JSON.stringify([{ bn: `${credential.user}_`, n: 'core', v: 15 }]));
  await page.getByText('what it sent could not be taken in').waitFor();
  await page.getByText('Give every record its unit').waitFor();
  await at('probe-refused');
  await probe.send(bench);
  await page.getByText('Here it is.').waitFor();
  await page.locator('.arrived li', { hasText: 'core' }).getByText('15.0 C').waitFor();
  await at('probe-arrived');
  await pressOn(page, 'Next: Ice check');
  return probe;
}

async function placeSensors(page: Page, probe: ProbeByHand, at: AtStage): Promise<void> {
  await page.getByRole('button', { name: 'Watch them now' }).waitFor();
  await at('sensors');
  await pressOn(page, 'Watch them now');
  await page.getByText('Watching. Hold one stem').waitFor();
  // Readings of one instant are one reading: a probe's next sample is a moment later.
  await page.waitForTimeout(1100);
  await probe.send({ ...bench, core: inIce, edge: 19.6 });
  await page.getByText('Stick 1 edge just rose 4.5 C').waitFor();
  await at('sensor-rose');
  await choosePosition(page, 'edge');
  await typeInto(page, 'How deep, metres', '0.1');
  await pressOn(page, 'It is there now');
  await page.locator('.live-channels').waitFor();
  await pressOn(page, /^Stick 1 core/);
  await choosePosition(page, 'core');
  await typeInto(page, 'How deep, metres', '0.6');
  await pressOn(page, 'It is there now');
  await pressOn(page, 'Next: Test text');
}

/** A group of choices is one stop of the keyboard; arrows go through it. */
async function choosePosition(page: Page, position: string): Promise<void> {
  await tabTo(page, /^core /);
  const chosen = page.locator(`input[name="position"][value="${position}"]`);
  for (let step = 0; step < 5 && !(await chosen.isChecked()); step += 1)
    await page.keyboard.press('ArrowDown');
}

/** The stem goes into ice: a quick one, so that nobody waits long. */
async function checkInIce(page: Page, probe: ProbeByHand, at: AtStage): Promise<void> {
  await page.getByRole('button', { name: 'It is in the ice' }).waitFor();
  await pick(page, 'Sensor in the ice', 'Stick 1 core');
  await pressOn(page, 'It is in the ice');
  const startedMs = performance.now();
  const settled = page.getByText('Settled.');
  while ((await settled.count()) === 0) {
    const seconds = (performance.now() - startedMs) / 1000;
    if (seconds > 180) throw new Error('the sensor was never said to have settled');
    const celsius = inIce + 15 * Math.exp(-seconds / 6);
    await probe.send({ ...bench, core: Math.round(celsius * 16) / 16 });
    await page.waitForTimeout(3000);
    if (seconds > 12 && seconds < 16) await at('ice-moving');
  }
  await at('ice-settled');
  await pressOn(page, 'Save this offset');
  await page.getByText('Saved. It will say 0 in ice').waitFor();
  await pressOn(page, 'Next: Sensors');
}

async function sendTest(page: Page, at: AtStage): Promise<void> {
  await page.getByText('+441632960123').waitFor();
  await pressOn(page, 'Send me a test');
  await page.getByText('The gateway took it').waitFor();
  await at('test-text');
  await pressOn(page, 'Next: Wall screen');
}

async function hangWall(page: Page, at: AtStage): Promise<void> {
  await typeInto(page, 'Which screen', 'Shed');
  await pressOn(page, 'Make the link');
  await page.getByText('Open this on that screen').waitFor();
  await page.locator('.qr').waitFor();
  await at('wall-link');
  await pressOn(page, 'Next');
  await page.getByText('The yard is set up.').waitFor();
  await at('set-up');
}
