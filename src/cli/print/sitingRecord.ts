import { Command } from "commander";
import { Refusal } from "../ending.ts";
import { bytesOf, readJson, textOf } from "../input/index.ts";
import { clinicOf, withRecord } from "../record/folder.ts";
import { writeOut } from "../terminal/index.ts";
import {
  checkOutput,
  outputOption,
  type PageOptions,
  paperOption,
  scaleOption,
  writePage,
} from "./options.ts";

interface RecordOptions extends PageOptions {
  data?: string;
  person?: string;
  marked?: string;
  example?: boolean;
}

export function sitingRecordCommand(): Command {
  return new Command("siting-record")
    .summary("where a stoma may go, for the surgeon")
    .description(
      "Makes a siting record, either of a person in a record or from one JSON document in FILE or on standard input.",
    )
    .argument("[file]", "a JSON document: clinic, person, landmarks and marks; --example prints one")
    .option("--data <folder>", "the data folder of the clinic, for a marking in the record")
    .option("--person <id>", "the person")
    .option("--marked <id>", "the marking; the last one when left out")
    .addOption(outputOption())
    .addOption(paperOption())
    .addOption(scaleOption())
    .option("--example", "print a JSON document that works")
    .addHelpText("after", examples)
    .action(printSitingRecord);
}

const examples = `
Examples:
  $ roundel print siting-record --example > siting.json
  $ roundel print siting-record siting.json -o siting.pdf
  $ roundel print siting-record --data clinic --person ID -o siting.pdf
`;

async function printSitingRecord(file: string | undefined, options: RecordOptions): Promise<void> {
  if (options.example) {
    const { sitingExample } = await import("./sitingDocument.ts");
    return writeOut(`${JSON.stringify(sitingExample, null, 2)}\n`);
  }
  checkOutput(options);
  const { sitingRecord } = await import("../../documents/index.ts");
  const record =
    options.data === undefined
      ? await fromDocument(file, options)
      : await fromRecord(options.data, file, options);
  await writePage(await sitingRecord(record), options);
}

async function fromDocument(file: string | undefined, { paper, scale, person, marked }: RecordOptions) {
  const given = person === undefined ? marked && "marked" : "person";
  if (given) {
    throw new Refusal(
      `--${given} goes with a record: name its folder with --data, or write it in the document.`,
    );
  }
  const { sitingOfDocument } = await import("./sitingDocument.ts");
  return sitingOfDocument(readJson(textOf(await bytesOf(file))), { paper, printScale: scale });
}

async function fromRecord(
  data: string,
  file: string | undefined,
  { person: personId, marked, paper, scale }: RecordOptions,
) {
  if (file !== undefined) throw new Refusal("Give either a record with --data or a document, not both.");
  if (personId === undefined) throw new Refusal("Whose siting record? Name the person with --person.");
  const [{ sitingFromRecord }, { personStory }] = await Promise.all([
    import("../../documents/fromRecord/index.ts"),
    import("../../record/story/index.ts"),
  ]);
  return withRecord(data, async (store) => {
    const clinic = await clinicOf(store);
    const person = personStory(await store.entriesOfPerson(clinic.clinicId, personId));
    if (!person) throw new Refusal(`This record holds no person ${personId}.`);
    const demo = (await store.mark("demo")) !== null;
    return sitingFromRecord(person, clinic, { markedId: marked, paper, printScale: scale }, demo);
  });
}
