import { setAsideWords } from './setAsideWords.ts';

/** What to do about a message that was set aside, by what its reason says. The first that fits. */
const advice: readonly (readonly [sign: RegExp, what: keyof typeof setAsideWords])[] = [
  [/unknown probe/, 'stranger'],
  [/was revoked/, 'revoked'],
  [/may not publish|nobody reads topic/, 'topic'],
  [/does not belong to probe|sent as|does not belong to yard/, 'name'],
  [/no unit given|unit "/, 'unit'],
  [/in the future|years ago|absolute time|when it was measured/, 'clock'],
  [/payload of \d+ bytes|too large/, 'size'],
  [/JSON|CBOR|SenML|record|pack|array/i, 'format'],
];

/** What to do next about a message that could not be taken in. */
export function setAsideAdvice(reason: string): string {
  return setAsideWords[advice.find(([sign]) => sign.test(reason))?.[1] ?? 'other'];
}
