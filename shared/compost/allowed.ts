/** Guards for numbers that come into the compost computations: an error names the field, the value and what is allowed. */

/** Returns `value`, or throws a `RangeError` unless `low <= value <= high` (NaN never passes). */
export function requireBetween(field: string, value: number, low: number, high: number): number {
  if (value >= low && value <= high) return value;
  throw new RangeError(`${field} is ${value}; allowed is ${low} to ${high}`);
}

/** Returns `value`, or throws a `RangeError` unless it is a finite number above zero. */
export function requirePositive(field: string, value: number): number {
  if (value > 0 && value < Number.POSITIVE_INFINITY) return value;
  throw new RangeError(`${field} is ${value}; allowed is a number above 0`);
}

/** Returns `value`, or throws a `RangeError` unless it is a finite number, zero or above. */
export function requireNotNegative(field: string, value: number): number {
  if (value >= 0 && value < Number.POSITIVE_INFINITY) return value;
  throw new RangeError(`${field} is ${value}; allowed is 0 or more`);
}
