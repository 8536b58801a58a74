/**
 * A small check against passwords everybody tries first. It is not a list of leaked passwords: length and the sign-in
 * throttle do the main work. Written by us; no outside list is copied (ASVS 6.2.4 asks for the 3000 most common: nearly
 * all of those are shorter than our 12 characters and already refused).
 */
const beginnings = [
  'password',
  'passwort',
  'letmein',
  'welcome',
  'qwerty',
  'qwertz',
  'azerty',
  'asdfgh',
  'iloveyou',
  'administrator',
  'admin',
  'changeme',
  'default',
  'secret',
  'compost',
  'tilthwatch',
  'tilth',
];

const runs = [
  '01234567890123456789',
  'abcdefghijklmnopqrstuvwxyz',
  'qwertyuiopasdfghjklzxcvbnm',
  'qwertzuiopasdfghjklyxcvbnm',
  '1qaz2wsx3edc4rfv5tgb6yhn7ujm',
  '1q2w3e4r5t6y7u8i9o0p',
];

/**
 * Why a password is too easy to guess, in words that follow "allowed:"; null when it is not.
 * `aboutThem` are words a stranger would try first: sign-in name, name, yard.
 */
export function tooEasy(password: string, aboutThem: readonly string[]): string | null {
  const plain = squeezed(password);
  if (new Set(plain).size < 5) return 'at least 5 different characters';
  if (runs.some((run) => isRun(plain, run))) return 'something other than keys in a row';
  const words = [...beginnings, ...aboutThem.map(squeezed)];
  if (words.some((word) => word.length >= 3 && restWithout(plain, word) < 5)) {
    return 'more than a common word or a name: add words nobody would guess';
  }
  return null;
}

function isRun(plain: string, run: string): boolean {
  const backwards = [...run].reverse().join('');
  return run.repeat(2).includes(plain) || backwards.repeat(2).includes(plain);
}

function squeezed(text: string): string {
  return text.toLowerCase().replace(/\s+/g, '');
}

/** How many letters remain when every copy of the word is taken out; digits and signs around a word add little. */
function restWithout(plain: string, word: string): number {
  if (!plain.includes(word)) return plain.length;
  const rest = plain.replaceAll(word, '').replace(/[^\p{L}]/gu, '');
  return rest.length;
}
