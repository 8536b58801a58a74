import { describe, expect, it } from 'vitest';
import { readText, textsOf } from './changeText.ts';
import type { Change } from './port.ts';

const read = (texts: readonly string[]) => texts.flatMap((text) => readText(text)!.changes);

describe('changes as texts', () => {
  it('come back as they were told, each once', () => {
    const changes: Change[] = [
      { kind: 'readings-stored' },
      { kind: 'facts', pileId: 'p', probeId: 'q' },
      { kind: 'facts' },
      { kind: 'readings-stored' },
      {
        kind: 'screens',
        changes: [
          { kind: 'messages', yardId: null },
          { kind: 'alarm', yardId: 'y', alarmId: 'a' },
        ],
      },
      { kind: 'screens', changes: [{ kind: 'messages', yardId: null }] },
    ];
    const texts = textsOf('me', changes);
    expect(texts).toHaveLength(1);
    expect(readText(texts[0]!)!.from).toBe('me');
    expect(read(texts)).toEqual([changes[0], changes[1], changes[2], changes[4]]);
  });

  it('fit what the database carries, however many there are, and lose none', () => {
    const piles = Array.from({ length: 1000 }, (_, index) => ({
      ...{ kind: 'pile' as const, yardId: 'a-yard-with-a-long-name', pileId: `pile number ${index}` },
    }));
    const texts = textsOf('me', [{ kind: 'screens', changes: piles }]);
    for (const text of texts) expect(Buffer.byteLength(text)).toBeLessThan(8000);
    const told = read(texts).flatMap((change) => (change.kind === 'screens' ? change.changes : []));
    expect(told).toEqual(piles);
  });

  it('of strangers are not believed', () => {
    for (const text of ['', '{', '{"from":"x"}', '{"from":"x","changes":[{"kind":"new"}]}'])
      expect(readText(text)).toBeNull();
  });
});
