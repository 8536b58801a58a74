import { topicMatches } from '../../shared/messages/topicFilter.ts';
import type { SignedInProbe } from './port.ts';

/**
 * Why a probe may not publish to a topic; null when it may. A probe has its own branch and, where mappings name other
 * topics, those too: ingest then checks that the mapping leads back to the same probe. Everything else is denied.
 */
export function publishProblem(
  probe: SignedInProbe,
  topic: string,
  mappedFilters: readonly string[],
): string | null {
  const own = `tilth/${probe.yardId}/${probe.probeId}/`;
  if (topic.startsWith(own) && topic.length > own.length) return null;
  if (!topic.startsWith('$') && mappedFilters.some((filter) => topicMatches(filter, topic))) return null;
  return `probe ${probe.probeId} may not publish to "${topic}"; allowed: ${own}readings`;
}
