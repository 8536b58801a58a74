import { describe, expect, it } from 'vitest';
import { ArchiveFault } from '../archive.ts';
import type { StoredReading } from '../port.ts';
import { deliver } from './deliver.ts';

const batch = (count: number): StoredReading[] =>
  Array.from({ length: count }, (_, index) => {
    const sequence = index + 1;
    const rest = { rawValue: 1, value: 1, quality: 'good', reason: null } as const;
    return { channel: 'a', timeMs: index, sequence, ...rest };
  });

/** An archive that refuses some readings and remembers which it wrote. */
function pickyArchive(isRefused: (sequence: number) => boolean) {
  const written = new Set<number>();
  let requests = 0;
  return {
    written,
    requests: () => requests,
    async write(readings: readonly StoredReading[]) {
      requests++;
      if (readings.some(({ sequence }) => isRefused(sequence))) throw new ArchiveFault('refused', 'no');
      for (const { sequence } of readings) written.add(sequence);
      return { beyondRetention: 0 };
    },
  };
}
const refusedIn = async (archive: ReturnType<typeof pickyArchive>, count: number) =>
  (await deliver(archive, batch(count))).refused.map(({ reading }) => reading.sequence);

describe('deliver', () => {
  it('writes a good batch in one request', async () => {
    const archive = pickyArchive(() => false);
    expect(await refusedIn(archive, 5_000)).toEqual([]);
    expect([archive.requests(), archive.written.size]).toEqual([1, 5_000]);
  });

  it('finds the bad lines among thousands with few requests and writes the others', async () => {
    const archive = pickyArchive((sequence) => sequence === 77 || sequence === 4_000);
    expect(await refusedIn(archive, 5_000)).toEqual([77, 4_000]);
    expect(archive.written.size).toBe(4_998);
    expect(archive.requests()).toBeLessThan(60);
  });

  it.each([1, 2, 5_000])(
    'passes over nothing when all of %i are refused, and soon knows it',
    async (count) => {
      const archive = pickyArchive(() => true);
      await expect(deliver(archive, batch(count))).rejects.toMatchObject({ kind: 'refused' });
      expect(archive.requests()).toBeLessThan(10);
    },
  );

  it('writes the one good line among bad ones', async () => {
    const archive = pickyArchive((sequence) => sequence !== 3);
    expect(await refusedIn(archive, 4)).toEqual([1, 2, 4]);
    expect([...archive.written]).toEqual([3]);
  });

  it('hands on any other fault, also in the midst of taking apart', async () => {
    const archive = pickyArchive((sequence) => sequence === 2);
    const write = archive.write.bind(archive);
    archive.write = async (readings) => {
      if (archive.requests() > 2) throw new ArchiveFault('busy', 'later');
      return write(readings);
    };
    await expect(deliver(archive, batch(100))).rejects.toMatchObject({ kind: 'busy' });
  });
});
