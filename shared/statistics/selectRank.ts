/**
 * Value of rank `rank` (0 = smallest), found without a full sort: Hoare's selection with a median-of-three pivot.
 * REORDERS the array so that everything before `rank` is no larger and everything after no smaller, which makes the
 * next selection in the same array cheaper. NaN is not allowed.
 */
export function selectRank(values: Float64Array, rank: number): number {
  let [low, high] = [0, values.length - 1];
  while (low < high) {
    const pivot = middleOfThree(values[low]!, values[(low + high) >> 1]!, values[high]!);
    let [left, right] = [low, high];
    while (left <= right) {
      while (values[left]! < pivot) left += 1;
      while (values[right]! > pivot) right -= 1;
      if (left <= right) {
        const swapped = values[left]!;
        values[left] = values[right]!;
        values[right] = swapped;
        left += 1;
        right -= 1;
      }
    }
    if (rank <= right) high = right;
    else if (rank >= left) low = left;
    else return values[rank]!;
  }
  return values[rank]!;
}

function middleOfThree(first: number, second: number, third: number): number {
  return Math.max(Math.min(first, second), Math.min(Math.max(first, second), third));
}
