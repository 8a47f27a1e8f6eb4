import { createInterface } from "node:readline/promises";
import { Command, Option } from "commander";
import { type ErasureGround, erasureGroundKeys, erasureGrounds } from "../../record/erasure/grounds.ts";
import { Failure, Refusal } from "../ending.ts";
import { atMachine, clinicOf, dataOption, withOpenRecord } from "../record/folder.ts";
import { writeOut } from "../terminal/index.ts";

interface EraseOptions {
  data?: string;
  reason: ErasureGround;
}

export function eraseCommand(): Command {
  return new Command("erase")
    .summary("erase a person on their lawful request")
    .description(
      "Takes a person out of the record for good, with everything derived from what was written about them: entries,\n" +
        "lists, photographs with their keys, their account. A tombstone with their id stays, so that no restore and no\n" +
        "import brings them back, and a line of the audit trail without content. Asks for the person's name first.",
    )
    .argument("<person>", "the person's id")
    .option(...dataOption)
    .addOption(
      new Option("--reason <ground>", "on which ground of the law")
        .choices(erasureGroundKeys)
        .makeOptionMandatory(),
    )
    .addHelpText(
      "after",
      `\nGrounds:\n${grounds()}\n\nExamples:\n  $ roundel erase ID --data clinic --reason consentWithdrawn\n`,
    )
    .action(erase);
}

function grounds(): string {
  return Object.entries(erasureGrounds)
    .map(([key, sentence]) => `  ${key.padEnd(18)} ${sentence}`)
    .join("\n");
}

async function erase(personId: string, { data, reason: ground }: EraseOptions): Promise<void> {
  const [{ isTypedName }, { personStory }] = await Promise.all([
    import("../../record/erasure/index.ts"),
    import("../../record/story/index.ts"),
  ]);
  await withOpenRecord(data, async ({ store, erasure }) => {
    const { clinicId } = await clinicOf(store);
    const person = personStory(await store.entriesOfPerson(clinicId, personId));
    if (!person) throw new Refusal(`This record holds no person ${personId}.`);
    const typed = await asked("Nothing brings them back. Type the person's name to erase them: ");
    if (!isTypedName(typed, person.details.name)) {
      throw new Refusal("This is not the person's name. Nothing was erased.");
    }
    const { atMs: nowMs, ...who } = atMachine();
    const erased = await erasure.erase({ clinicId, personId, ground, nowMs, ...who });
    const { entries, photos, accounts, isTraceless } = erased;
    await writeOut(`Erased: ${entries} entries, ${photos} photographs, ${accounts} accounts.\n`);
    if (!isTraceless) {
      throw new Failure(
        "The person is erased. Another program has the record open and keeps older pages of it on the disk: stop it,\n" +
          "start it again, and the bench empties them.",
      );
    }
  });
}

/** One line of standard input; the question goes to standard error, so that output stays output. */
async function asked(question: string): Promise<string> {
  const lines = createInterface({ input: process.stdin, output: process.stderr, terminal: false });
  try {
    process.stderr.write(question);
    for await (const line of lines) return line;
    return "";
  } finally {
    lines.close();
  }
}
