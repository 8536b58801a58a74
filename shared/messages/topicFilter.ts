import { utf8FromText } from '../senml/textBytes.ts';

/** Longest topic or filter in UTF-8 bytes (MQTT section 4.7.3). */
const mostBytes = 65_535;

/** Whether a text may be the topic of a message: no wildcards, no NUL, 1 to 65 535 bytes (MQTT section 4.7). */
export function isValidTopicName(topic: string): boolean {
  return hasValidLength(topic) && !/[+#\0]/.test(topic);
}

/** Whether a text may be subscribed to. A shared subscription must have a valid share name and filter inside. */
export function isValidTopicFilter(filter: string): boolean {
  if (!hasValidLength(filter) || filter.includes('\0')) return false;
  if (isShared(filter)) return parseSharedFilter(filter) !== null;
  return hasValidWildcards(filter);
}

export interface SharedFilter {
  readonly shareName: string;
  readonly filter: string;
}

/**
 * Share name and filter of `$share/{name}/{filter}` (MQTT 5 section 4.8.2), or null when the text is not a valid shared
 * subscription. The name has at least one character and none of `/ + #`.
 */
export function parseSharedFilter(text: string): SharedFilter | null {
  const match = /^\$share\/([^/+#]+)\/(.+)$/s.exec(text);
  if (!match || !hasValidWildcards(match[2]!)) return null;
  return { shareName: match[1]!, filter: match[2]! };
}

/**
 * Whether a valid filter matches a topic. A shared subscription matches what the filter inside it matches. A filter
 * that starts with a wildcard does not match topics that start with `$` (MQTT section 4.7.2).
 */
export function topicMatches(filter: string, topic: string): boolean {
  const inner = parseSharedFilter(filter)?.filter ?? filter;
  if (topic.startsWith('$') && /^[+#]/.test(inner)) return false;
  const wanted = inner.split('/');
  const levels = topic.split('/');
  for (const [index, want] of wanted.entries()) {
    // At this place "#" also matches the parent level, for which there are no more levels here.
    if (want === '#') return true;
    if (index >= levels.length || (want !== '+' && want !== levels[index])) return false;
  }
  return wanted.length === levels.length;
}

function hasValidWildcards(filter: string): boolean {
  const levels = filter.split('/');
  return levels.every((level, index) => {
    if (level === '+') return true;
    if (level === '#') return index === levels.length - 1;
    return !/[+#]/.test(level);
  });
}

function isShared(filter: string): boolean {
  return filter === '$share' || filter.startsWith('$share/');
}

function hasValidLength(text: string): boolean {
  // Each UTF-16 unit is at most three UTF-8 bytes: short texts need no encoding to know.
  return text.length > 0 && (text.length * 3 <= mostBytes || utf8FromText(text).length <= mostBytes);
}
