/** Throws a `RangeError` naming the field, the place and the value when any number is NaN or infinite. */
export function requireFinite(field: string, values: ArrayLike<number>): void {
  for (let index = 0; index < values.length; index += 1) {
    if (!Number.isFinite(values[index]))
      throw new RangeError(`${field}[${index}] is ${values[index]}; allowed are finite numbers only`);
  }
}

/** Throws a `RangeError` when fewer than `least` numbers are given. */
export function requireCount(field: string, values: ArrayLike<number>, least: number): void {
  if (values.length < least)
    throw new RangeError(`${field} has ${values.length} values; allowed is ${least} or more`);
}
