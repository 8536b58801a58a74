import { topicMatches } from '../../shared/messages/topicFilter.ts';
import type { MappingRule } from '../../shared/readings/mapping.ts';

/** Filter that catches the readings of every probe of every yard. */
export const readingsFilter = 'tilth/+/+/readings';

export type TopicRoute =
  | { readonly kind: 'senml'; readonly yardId: string; readonly probeId: string }
  | { readonly kind: 'mapped'; readonly rule: MappingRule };

/** Who a topic belongs to and how its payload is read; null when nobody reads it. The own topics go before mappings. */
export function routeOf(topic: string, mappings: readonly MappingRule[]): TopicRoute | null {
  const [root, yardId, probeId, leaf, ...rest] = topic.split('/');
  if (root === 'tilth' && yardId && probeId && leaf === 'readings' && rest.length === 0) {
    return { kind: 'senml', yardId, probeId };
  }
  const rule = mappings.find(({ topicFilter }) => topicMatches(topicFilter, topic));
  return rule === undefined ? null : { kind: 'mapped', rule };
}
