/** Asks every so often until the answer is yes; throws with the name of what was waited for after the deadline. */
export async function eventually(
  what: string,
  isTrue: () => boolean | Promise<boolean>,
  deadlineMilliseconds = 15_000,
  everyMilliseconds = 20,
): Promise<void> {
  const endMs = performance.now() + deadlineMilliseconds;
  while (!(await isTrue())) {
    if (performance.now() > endMs) throw new Error(`not within ${deadlineMilliseconds} ms: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, everyMilliseconds));
  }
}
