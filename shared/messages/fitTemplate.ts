import type { FittedMessage } from './fitOneSegment.ts';
import { cutTo } from './fitOneSegment.ts';
import { septetCount, smsLimits } from './gsm.ts';
import { optionalNames, renderTemplate, type TemplatePart } from './template.ts';
import { transliterate } from './transliterate.ts';

/** What is filled in: in full first, then shorter ways to say it. */
export type TemplateValues = Readonly<Record<string, readonly string[]>>;

export interface FittedTemplate extends FittedMessage {
  /** Before anything was shortened or left out: what the editor counts. */
  readonly whole: string;
  /** Names of what was left out, in the order in which it went. */
  readonly leftOut: readonly string[];
  /** Nothing more could go, so its end was cut off. */
  readonly isCut: boolean;
}

/**
 * One text in the GSM alphabet that fits in one SMS. While it is too long, what is named in `giveUp` is said in its next
 * shorter way and, where it stands in brackets, left out, one after the other. If that is not enough the end is cut.
 */
export function fitTemplate(
  parts: readonly TemplatePart[],
  values: TemplateValues,
  giveUp: readonly string[],
): FittedTemplate {
  const limit = smsLimits.gsm.alone;
  const current: Record<string, string> = {};
  for (const [name, [first = '']] of Object.entries(values)) current[name] = transliterate(first);
  const render = () => transliterate(renderTemplate(parts, current));
  const isTooLong = () => septetCount(render())! > limit;
  const whole = render();
  const optional = optionalNames(parts);
  const leftOut: string[] = [];
  for (const name of giveUp) {
    const [, ...shorter] = values[name] ?? [];
    for (const form of shorter) if (isTooLong()) current[name] = transliterate(form);
    if (!isTooLong()) break;
    if (!optional.has(name) || !current[name]) continue;
    current[name] = '';
    leftOut.push(name);
  }
  const fitted = render();
  const text = cutTo(fitted, limit);
  const isShortened = text !== whole;
  return { text, septets: septetCount(text)!, isShortened, whole, leftOut, isCut: text !== fitted };
}
