import { type Archive, ArchiveFault, type WriteResult } from '../archive.ts';
import type { StoredReading } from '../port.ts';

export interface Delivery {
  /** Readings the archive would not take, with what it said. */
  readonly refused: readonly { readonly reading: StoredReading; readonly answer: string }[];
  readonly beyondRetention: number;
}

type Write = (readings: readonly StoredReading[]) => Promise<WriteResult>;

/** Readings tried one by one to learn whether a refusal is about lines at all. */
const sampled = 8;

/**
 * Writes a batch; when it is refused, halves it again and again until the lines that are refused stand alone. Where every
 * line is refused the lines are not at fault (a field of another type in the database, say): then the fault is thrown and
 * nothing counts as delivered, so that nothing is passed over which a person could still set right.
 *
 * @throws ArchiveFault; the whole batch must then be delivered again, which changes nothing for what was written.
 */
export async function deliver(
  archive: Pick<Archive, 'write'>,
  batch: readonly StoredReading[],
  signal?: AbortSignal,
): Promise<Delivery> {
  const write: Write = (readings) => archive.write(readings, signal);
  const whole = await tryWrite(write, batch);
  if (!(whole instanceof ArchiveFault)) return whole;
  if (await allAreRefused(write, sample(batch))) throw whole;
  const delivery = await takeApart(write, batch, whole);
  if (delivery.refused.length === batch.length) throw whole;
  return delivery;
}

/** The delivery, or the refusal; any other fault is thrown. */
async function tryWrite(write: Write, part: readonly StoredReading[]): Promise<Delivery | ArchiveFault> {
  try {
    const { beyondRetention } = await write(part);
    return { refused: [], beyondRetention };
  } catch (error) {
    if (error instanceof ArchiveFault && error.kind === 'refused') return error;
    throw error;
  }
}

async function takeApart(
  write: Write,
  part: readonly StoredReading[],
  { message }: ArchiveFault,
): Promise<Delivery> {
  if (part.length === 1) return { refused: [{ reading: part[0]!, answer: message }], beyondRetention: 0 };
  const middle = Math.ceil(part.length / 2);
  const [first, second] = [part.slice(0, middle), part.slice(middle)];
  const deliveries: Delivery[] = [];
  for (const half of [first, second]) {
    const result = await tryWrite(write, half);
    deliveries.push(result instanceof ArchiveFault ? await takeApart(write, half, result) : result);
  }
  return {
    refused: deliveries.flatMap(({ refused }) => refused),
    beyondRetention: deliveries.reduce((sum, { beyondRetention }) => sum + beyondRetention, 0),
  };
}

async function allAreRefused(write: Write, readings: readonly StoredReading[]): Promise<boolean> {
  for (const reading of readings) {
    if (!((await tryWrite(write, [reading])) instanceof ArchiveFault)) return false;
  }
  return true;
}

/** A few lines from all over the batch. */
function sample(batch: readonly StoredReading[]): StoredReading[] {
  const count = Math.min(sampled, batch.length);
  return Array.from({ length: count }, (_, index) => batch[Math.floor((index * batch.length) / count)]!);
}
