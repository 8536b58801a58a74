/**
 * Whether a text has the shape of an international number: `+`, no leading 0, 2 to 15 digits (ITU-T E.164). It says
 * nothing about whether the number exists.
 */
export function isE164(text: string): boolean {
  return /^\+[1-9][0-9]{1,14}$/.test(text);
}
