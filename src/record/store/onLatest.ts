import { MovedOnError } from "./store.ts";

/** Somebody who is overtaken so often is one of very many, and had better wait. */
const mostTries = 5;

/**
 * Reads, thinks and appends again where the record moved on between reading and appending, in this process or in
 * another: two sheets of one stoma never get the same number.
 */
export async function onLatest<T>(work: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await work();
    } catch (error) {
      if (!(error instanceof MovedOnError) || tries === mostTries) throw error;
    }
  }
}
