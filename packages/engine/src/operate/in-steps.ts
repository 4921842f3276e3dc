/** Work that can be laid aside between its steps. */
export type InSteps<T> = Generator<undefined, T, undefined>;

/** All steps one after the other. */
export function atOnce<T>(steps: Generator<unknown, T, undefined>): T {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}
