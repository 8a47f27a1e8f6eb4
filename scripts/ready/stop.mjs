/** A step that cannot go on for a reason the reader can act on: shown as a sentence, without a stack. */
export class CannotGoOn extends Error {}

/**
 * Runs a script to its end. What it cannot do is said in a sentence on standard error, with exit status 1.
 * @param {() => Promise<number | void>} work resolves to the exit status, 0 when it resolves to nothing
 */
export async function runToEnd(work) {
  try {
    process.exitCode = (await work()) ?? 0;
  } catch (error) {
    console.error(error instanceof CannotGoOn ? error.message : error);
    process.exitCode = 1;
  }
}
