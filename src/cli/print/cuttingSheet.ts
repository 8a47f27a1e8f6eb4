import { Command, InvalidArgumentError } from "commander";
import { Refusal } from "../ending.ts";
import { bytesOf, readJson, textOf } from "../input/index.ts";
import { atMachine, clinicOf, stomaOf, withOpenRecord } from "../record/folder.ts";
import { databaseNamed } from "../record/named.ts";
import { writeOut } from "../terminal/index.ts";
import {
  checkOutput,
  outputOption,
  type PageOptions,
  paperOption,
  scaleOption,
  writePage,
} from "./options.ts";

interface SheetOptions extends PageOptions {
  data?: string;
  person?: string;
  stoma?: string;
  measured?: string;
  clearance?: number;
  example?: boolean;
}

export function cuttingSheetCommand(): Command {
  return new Command("cutting-sheet")
    .summary("the opening to cut, at its real size")
    .description(
      "Makes a cutting sheet, either of a person in a record (the sheet is written into the record as advice given)\n" +
        "or from one JSON document in FILE or on standard input, which leaves no trace.",
    )
    .argument("[file]", "a JSON document: clinic, person, stoma and gap; --example prints one")
    .option("--data <folder>", "the data folder of the clinic, for a sheet from the record")
    .option("--person <id>", "the person")
    .option("--stoma <id>", "the stoma, where the person has several")
    .option("--measured <id>", "the measurement to cut from; the last one when left out")
    .option("--clearance <mm>", "gap each side; the protocol's for this kind of stoma when left out", readMm)
    .addOption(outputOption())
    .addOption(paperOption())
    .addOption(scaleOption())
    .option("--example", "print a JSON document that works")
    .addHelpText("after", examples)
    .action(printCuttingSheet);
}

const examples = `
Examples:
  $ roundel print cutting-sheet --data clinic --person ID -o sheet.pdf
  $ roundel print cutting-sheet --data clinic --person ID --stoma ID --clearance 1.6 -o sheet.pdf
  $ roundel print cutting-sheet --example > sheet.json
  $ roundel print cutting-sheet sheet.json -o sheet.pdf

Cut only from a page whose 100 mm bars measure 100 mm, and hold it against the stoma before you cut.
`;

function readMm(text: string): number {
  const mm = text.trim() === "" ? Number.NaN : Number(text);
  if (!Number.isFinite(mm))
    throw new InvalidArgumentError("Give millimetres as a number with a point, as 1.6.");
  return mm;
}

async function printCuttingSheet(file: string | undefined, options: SheetOptions): Promise<void> {
  if (options.example) {
    const { sheetExample } = await import("./sheetDocument.ts");
    return writeOut(`${JSON.stringify(sheetExample, null, 2)}\n`);
  }
  checkOutput(options);
  const { cuttingSheet } = await import("../../documents/index.ts");
  const { data, person } = options;
  const isOfRecord = data !== undefined || (databaseNamed() !== undefined && person !== undefined);
  const sheet = isOfRecord ? await fromRecord(data, file, options) : await fromDocument(file, options);
  await writePage(await cuttingSheet(sheet), options);
}

async function fromDocument(file: string | undefined, { paper, scale, ...ofRecord }: SheetOptions) {
  const given = (["person", "stoma", "measured", "clearance"] as const).filter(
    (key) => ofRecord[key] !== undefined,
  );
  if (given.length > 0) {
    throw new Refusal(
      `--${given[0]} goes with a record: name its folder with --data, or write it in the document.`,
    );
  }
  const { sheetOfDocument } = await import("./sheetDocument.ts");
  return sheetOfDocument(readJson(textOf(await bytesOf(file))), { paper, printScale: scale });
}

async function fromRecord(data: string | undefined, file: string | undefined, options: SheetOptions) {
  const { person: personId } = options;
  if (file !== undefined) throw new Refusal("Give either a record with --data or a document, not both.");
  if (personId === undefined) throw new Refusal("Whose sheet? Name the person with --person.");
  const [{ adviseCuttingSheet }, { clearanceFor }, { linesOfWrite }, { v7 }] = await Promise.all([
    import("../../documents/fromRecord/index.ts"),
    import("./clearance.ts"),
    import("../../record/audit/index.ts"),
    import("uuid"),
  ]);
  return withOpenRecord(data, async ({ store, audit }) => {
    const clinic = await clinicOf(store);
    const { stoma } = await stomaOf(store, clinic.clinicId, { person: personId, stoma: options.stoma });
    const measuredId = options.measured ?? stoma.readings.at(-1)?.entryId;
    if (measuredId === undefined)
      throw new Refusal("This stoma was never measured: there is nothing to cut from.");
    await audit.open();
    const { sheet } = await adviseCuttingSheet(
      store,
      clinic.clinicId,
      {
        personId,
        stomaId: stoma.stomaId,
        adviceId: v7(),
        measuredId,
        clearanceMm: options.clearance ?? clearanceFor(stoma.details.type, clinic.protocol),
        paper: options.paper ?? clinic.details.paper,
        printScale: options.scale,
      },
      {
        author: clinic.details.nurse,
        nowMs: Date.now(),
        demo: (await store.mark("demo")) !== null,
        alongside: linesOfWrite(audit, { ...atMachine(), action: "makeSheet" }),
      },
    );
    return sheet;
  });
}
