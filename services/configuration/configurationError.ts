/** A configuration that cannot be used; the message names field, value and what is allowed, one line each. */
export class ConfigurationError extends Error {
  override readonly name = 'ConfigurationError';
}
