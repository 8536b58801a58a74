import { describe, expect, it } from 'vitest';
import { processFindings } from './processes.ts';

const row = (id: string, beat: number, services: readonly string[]) => ({
  ...{ id, beat, standing: JSON.stringify({ services, isBrokerConnected: null, isForwarding: null }) },
});

function processes(...looks: ReturnType<typeof row>[][]) {
  let look = 0;
  return { list: async () => looks[Math.min(look++, looks.length - 1)]! };
}

describe('processes of a yard', () => {
  it('are alive when they give signs of life, and each service is looked for', async () => {
    const before = [row('a', 1, ['ingest']), row('b', 5, ['rules']), row('dead', 9, ['notify'])];
    const after = [row('a', 2, ['ingest']), row('b', 6, ['rules']), row('dead', 9, ['notify'])];
    const findings = await processFindings(processes(before, after), 0);
    expect(findings[0]).toMatchObject({ state: 'good', text: '2 alive: ingest 1, rules 1' });
    expect(findings.slice(1).map(({ text }) => text.split(':')[0])).toEqual([
      'notify runs nowhere',
      'web runs nowhere',
      'series runs nowhere',
    ]);
  });

  it('are no trouble where none runs', async () => {
    expect(await processFindings(processes([]), 0)).toMatchObject([{ state: 'good' }]);
  });
});
