import { describe, expect, it } from 'vitest';
import { publishProblem } from './topicPermission.ts';

const probe = { probeId: 'urn:dev:example:a', yardId: 'yard' };

describe('publishProblem', () => {
  it.each(['tilth/yard/urn:dev:example:a/readings', 'tilth/yard/urn:dev:example:a/status'])(
    'lets a probe publish to its own branch: %s',
    (topic) => {
      expect(publishProblem(probe, topic, [])).toBeNull();
    },
  );

  it.each([
    'tilth/yard/urn:dev:example:ab/readings',
    'tilth/yard/urn:dev:example:a',
    'tilth/yard/urn:dev:example:a/',
    'tilth/other/urn:dev:example:a/readings',
    'elsewhere',
    '$SYS/broker/heartbeat',
  ])('denies everything else: %s', (topic) => {
    expect(publishProblem(probe, topic, [])).toContain('allowed: tilth/yard/urn:dev:example:a/readings');
  });

  it('lets mapped topics pass to ingest, but never those of the broker itself', () => {
    expect(publishProblem(probe, 'garden/7/up', ['garden/+/up'])).toBeNull();
    expect(publishProblem(probe, '$SYS/x', ['#'])).not.toBeNull();
  });
});
