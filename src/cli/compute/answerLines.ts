import { InputError } from "../../domain/fault.ts";
import { faultLine } from "../ending.ts";
import { linesOf, textOf } from "../input/index.ts";
import { answer } from "./answer.ts";
import type { AnyTopic } from "./topics.ts";

interface Reader {
  /** An answer, one line of JSON. */
  onAnswer(json: string): Promise<void>;
  /** A fault with the number of its line. */
  onFault(sentence: string): void;
}

/**
 * Answers JSON Lines one by one. Lines with faults are reported and give no answer; the others do.
 * Empty lines are passed over and counted. @returns how many lines had faults
 */
export async function answerLines(
  topic: AnyTopic,
  stream: AsyncIterable<Uint8Array>,
  { onAnswer, onFault }: Reader,
): Promise<number> {
  let line = 0;
  let faulty = 0;
  for await (const bytes of linesOf(stream)) {
    line += 1;
    if (isBlank(bytes)) continue;
    try {
      await onAnswer(answer(topic, textOf(bytes)));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      faulty += 1;
      for (const fault of error.faults) onFault(`line ${line}: ${faultLine(fault)}`);
    }
  }
  return faulty;
}

function isBlank(bytes: Uint8Array): boolean {
  return bytes.every((byte) => byte === 0x20 || byte === 0x09 || byte === 0x0d);
}
