import { z } from "zod";
import { envelope } from "../../src/record/entry/entry.ts";
import { type Kind, kindNames, kinds } from "../../src/record/entry/index.ts";
import { header } from "../../src/record/exchange/format.ts";

/** What each kind is about, for the page that describes the record. */
const kindWords: Record<Kind, string> = {
  clinic: "The clinic as it appears on sheets. The last one holds.",
  protocolSet: "One threshold of the protocol is set. `reason` says why and is needed.",
  person: "A person's details. The last one holds. A birth date or an identifier is needed beside the name.",
  stoma: "A stoma: its own surgery date and healing clock. A person may have several. The last one holds.",
  measured: "The stoma's base at the skin, as it was measured. The outline must not cross itself.",
  cut: "An opening that was cut, bought pre-cut or moulded, and put into use at `at`.",
  fitted: "The pouching system in use from `at` on.",
  changed: "A change. Only a new barrier ends one wear and begins the next.",
  event:
    "Something that changes what the lists may ask: died and movedAway end, admitted pauses until discharged.",
  noted: "A note.",
  skin: "The skin round the stoma as it was looked at. An empty list of findings: looked, and nothing found.",
  consented: "What the person said to photographs being used; the last answer to each purpose holds.",
  sited:
    "Where a stoma should go, marked before surgery; with `what` as `made`, where it was made, on the same map. `stomaId` may name the stoma once there is one.",
  advised: "A cutting sheet that was given: what it rested on and the words shown. Written by the bench.",
};

type Schema = z.core.JSONSchema.BaseSchema;

/** The page docs/record-format.md, from the schemas themselves. */
export function describeRecord(): string {
  return `${[
    "# The record as JSON Lines",
    "`roundel export` and `GET /api/export.jsonl` write the whole record of a clinic; `roundel import` reads it. The file is UTF-8 with one JSON object a line. The first line says what the file is; each line after it is one entry, in the order in which the entries were committed. Reading a file into an empty record gives the same record; reading it again adds nothing. A file with fewer entries than its first line says was cut short, and is refused.",
    "This page is made from the schemas by a test, which fails when it no longer says what they say (`npx vitest run --project unit src/record/exchange -u` writes it anew).",
    "## First line",
    table(header),
    "## Every entry",
    "An entry is never changed or removed. A correction is a new entry that names the one it corrects: `replace` puts its own body in that one's place, `retract` takes it back. An entry can be corrected once; a correction can be corrected in turn. `id` is a UUID of version 7 that whoever writes the entry makes, so that sending it again is harmless. `at` is when it happened: an instant with the zone it was lived in, or a date with the precision to which it is known. `schemaVersion` is that of the body's kind; a body of an older version is brought up to date when it is read.",
    table(envelope.omit({ body: true })),
    "What an entry is about decides which ids it carries: `clinicId` always; `personId` for all but `clinic` and `protocolSet`, where it is null; `stomaId` for `stoma`, `measured`, `cut`, `fitted`, `changed`, `skin` and `advised`, may be for `event`, `noted` and `sited`, and null otherwise. A person's entry comes before what is about the person, a stoma's before what is about the stoma, an entry before its correction.",
    "Lengths are millimetres at the skin, seen by somebody who faces the person: x grows to the person's left, y to the head. Clock hours: 12 toward the head, 3 at the person's left.",
    "## Bodies by kind",
    ...kindNames.flatMap((kind) => [
      `### ${kind}`,
      `Version ${kinds[kind].version}. ${kindWords[kind]}`,
      table(kinds[kind].body),
    ]),
  ].join("\n\n")}\n`;
}

function table(schema: z.ZodType): string {
  const rows = rowsOf(z.toJSONSchema(schema, { unrepresentable: "any" }) as Schema, "", true);
  return ["| field | value | needed |", "|---|---|---|", ...rows].join("\n");
}

function rowsOf(schema: Schema, path: string, needed: boolean): string[] {
  const choices = (schema.anyOf ?? schema.oneOf) as Schema[] | undefined;
  if (choices?.some((choice) => choice.type === "object" || choice.oneOf)) {
    const lead = `| \`${path}\` | one of the following | ${yes(needed)} |`;
    return [lead, ...choices.flatMap((choice) => rowsOf(choice, path, true).filter((row) => row !== lead))];
  }
  if (schema.type !== "object" || !schema.properties)
    return [`| \`${path}\` | ${valueText(schema)} | ${yes(needed)} |`];
  const own = Object.entries(schema.properties as Record<string, Schema>).flatMap(([name, inner]) =>
    rowsOf(inner, path ? `${path}.${name}` : name, schema.required?.includes(name) ?? false),
  );
  return path && needed === false ? [`| \`${path}\` | an object | no |`, ...own] : own;
}

function yes(needed: boolean): string {
  return needed ? "yes" : "no";
}

function valueText(schema: Schema): string {
  const choices = (schema.anyOf ?? schema.oneOf) as Schema[] | undefined;
  if (choices) return choices.map(valueText).join(" or ");
  if (schema.const !== undefined) return `\`${JSON.stringify(schema.const)}\``;
  if (schema.enum) return schema.enum.map((choice) => `\`${choice}\``).join(", ");
  if (schema.type === "array") return arrayOf(schema);
  if (schema.type === "null") return "null";
  if (schema.format) return formats[schema.format] ?? schema.format;
  const range = span(limits(schema));
  const unit = range && schema.type === "string" ? " characters" : "";
  return [schema.type ?? "anything", `${range}${unit}`].filter(Boolean).join(", ");
}

function arrayOf(schema: Schema): string {
  const tuple = schema.prefixItems as Schema[] | undefined;
  if (tuple) return `[${tuple.map(valueText).join("; ")}]`;
  return `list of ${span([schema.minItems, schema.maxItems])} × ${valueText((schema.items ?? {}) as Schema)}`;
}

function span([least, most]: readonly (number | undefined)[]): string {
  if (least === undefined) return most === undefined ? "" : `up to ${most}`;
  return most === undefined ? `${least} or more` : `${least} to ${most}`;
}

/** JavaScript's own limits of whole numbers are no limits of the record. */
function limits({ minimum, maximum, minLength, maxLength }: Schema): (number | undefined)[] {
  const real = (edge: number | undefined) => (edge === undefined || Math.abs(edge) > 1e15 ? undefined : edge);
  return [real(minimum ?? minLength), real(maximum ?? maxLength)];
}

const formats: Record<string, string> = {
  uuid: "UUID",
  date: "date, `YYYY-MM-DD`",
  "date-time": "instant in UTC, `YYYY-MM-DDTHH:MM:SS.sssZ`",
};
