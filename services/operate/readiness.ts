import type { ReadinessCheck } from '../web/port.ts';
import type { JudgementWatch } from './judgementWatch.ts';
import type { Sources } from './sources.ts';

/** A store that has not answered by then is not one to rely on. */
const patienceMs = 3_000;
/** Judgement may be this far behind and still be in time for every delay an alarm has. */
const mostLagSeconds = 60;

/** Looks at each part the work rests on. What failed is told in general words: anybody may read it. */
export async function checkReadiness(
  sources: Sources,
  judgement: JudgementWatch | null,
): Promise<readonly ReadinessCheck[]> {
  const checks = [
    storeCheck('records', () => sources.records.people.count(), 'the records database'),
    storeCheck('series', () => sources.series.latest([]), 'the store of readings'),
    Promise.resolve(arrivalCheck(sources)),
    Promise.resolve(storingCheck(sources)),
    judgementCheck(sources, judgement),
  ];
  return (await Promise.all(checks)).filter((check) => check !== null);
}

async function storeCheck(name: string, ask: () => Promise<unknown>, what: string): Promise<ReadinessCheck> {
  const late = new Promise<'late'>((resolve) => setTimeout(resolve, patienceMs, 'late').unref());
  const answer = await Promise.race([ask().then(() => 'ok' as const), late]).catch(() => 'failed' as const);
  if (answer === 'ok') return { name, isReady: true, text: `${what} answers` };
  const why = answer === 'late' ? `does not answer within ${patienceMs / 1000} s` : 'cannot be read';
  return { name, isReady: false, text: `${what} ${why}; see the log and npm run doctor` };
}

/** Whether readings can come in at all: our own broker listens from the start to the stop. */
function arrivalCheck({ broker, source }: Sources): ReadinessCheck | null {
  const line = source();
  if (broker !== null) return { name: 'arrival', isReady: true, text: 'the built-in MQTT broker listens' };
  if (line === null) return null;
  const isConnected = line.isConnected();
  if (isConnected === null)
    return { name: 'arrival', isReady: true, text: 'other processes take the readings; this one stands by' };
  return isConnected
    ? { name: 'arrival', isReady: true, text: 'connected to the MQTT broker' }
    : { name: 'arrival', isReady: false, text: 'no connection to the MQTT broker; see broker.externalUrl' };
}

function storingCheck({ ingest }: Sources): ReadinessCheck | null {
  if (ingest === null) return null;
  const { failedCommitsInRow } = ingest.statistics();
  return failedCommitsInRow === 0
    ? { name: 'storing', isReady: true, text: 'readings are stored as they come' }
    : {
        name: 'storing',
        isReady: false,
        text: 'the last readings could not be stored, their senders keep them; is the disk full?',
      };
}

async function judgementCheck(
  { rules }: Sources,
  judgement: JudgementWatch | null,
): Promise<ReadinessCheck | null> {
  if (judgement === null) return null;
  const name = 'judgement';
  const { isCaughtUp, problem, seconds } = await judgement.look();
  if (isCaughtUp && rules?.yardCount() === 0)
    return {
      name,
      isReady: true,
      text: 'no yard is judged here: there is none, or other processes judge them',
    };
  if (isCaughtUp) return { name, isReady: true, text: 'everything stored is judged' };
  if (problem !== null) return { name, isReady: false, text: 'judging failed; see the log' };
  const text = `judging what is stored takes ${Math.round(seconds)} s so far`;
  return { name, isReady: seconds <= mostLagSeconds, text };
}
