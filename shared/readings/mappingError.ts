/** A message a mapping rule cannot be applied to: says which field, what was found and what is allowed. */
export class MappingError extends Error {
  override readonly name = 'MappingError';
  readonly field: string;
  readonly value: string;
  readonly allowed: string;

  constructor(field: string, value: string, allowed: string) {
    super(`mapped message, ${field}: got ${value}; allowed: ${allowed}`);
    this.field = field;
    this.value = value;
    this.allowed = allowed;
  }
}
