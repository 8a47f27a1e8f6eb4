import { type Note, note } from "../../domain/note.ts";

/** A tracing file that cannot be taken, as a code with its figures and a sentence that says what to do. */
export class UnreadableTracing extends Error {
  readonly note: Note;
  constructor(reason: Note) {
    super(reason.text);
    this.name = "UnreadableTracing";
    this.note = reason;
  }
}

export function unreadable(code: string, text: string, params: Note["params"] = {}): never {
  throw new UnreadableTracing(note(code, text, params));
}
