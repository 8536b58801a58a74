/** Whether a text can be a full SenML name: a letter or digit, then letters, digits and `- : . / _` (RFC 8428 4.5.1). */
export function isSenmlName(text: string): boolean {
  return /^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/.test(text);
}
