import type { PlainDate } from "../../../../domain/calendar.ts";
import { protocolDefinition } from "../../../../domain/protocol/index.ts";
import type {
  BodyOf,
  Kind,
  PhotoPurpose,
  RecordedShape,
  StoredEntry,
} from "../../../../record/entry/index.ts";
import {
  changedPartWords,
  changeReasonWords,
  closureWords,
  days,
  fullDay,
  happeningWords,
  mm,
  photoPurposeWords,
  roughDay,
  skinSignWords,
  stomaTypeWords,
  stomaWords,
  timeOfDay,
  whenWords,
} from "../../../shared/words/index.ts";
import { hoursWords } from "../../kindForms/index.ts";

/** One thing that an entry says, named so that a correction can be set beside what it corrects. */
export interface Part {
  label: string;
  words: string;
}

/** What an entry says, part by part, in the order in which one reads it. */
export function partsOf(entry: StoredEntry, today: PlainDate): Part[] {
  const say = bodyParts[entry.kind] as (body: unknown, zone: string) => (Part | false | undefined | "")[];
  const zone = "zone" in entry.at ? entry.at.zone : "UTC";
  const said = say(entry.body, zone).filter((part): part is Part => Boolean(part));
  return [...said, ...told(entry), { label: "when", words: whenWords(entry.at, today) }];
}

function told({ reportedBy }: StoredEntry): Part[] {
  return reportedBy ? [{ label: "told by", words: reportedBy }] : [];
}

export interface ChangedPart {
  label: string;
  was: string | null;
  is: string | null;
}

/** Parts that differ between an entry and its correction; null where one of them does not say. */
export function changedParts(before: readonly Part[], after: readonly Part[]): ChangedPart[] {
  const labels = [...new Set([...before, ...after].map(({ label }) => label))];
  const wordsOf = (parts: readonly Part[], label: string) =>
    parts.find((part) => part.label === label)?.words ?? null;
  return labels
    .map((label) => ({ label, was: wordsOf(before, label), is: wordsOf(after, label) }))
    .filter(({ was, is }) => was !== is);
}

type Says = { [K in Kind]: (body: BodyOf<K>, zone: string) => (Part | false | undefined | "")[] };

function part(label: string, words: string | number | undefined | false): Part | undefined {
  return words === undefined || words === "" || words === false ? undefined : { label, words: String(words) };
}

function sized(label: string, value: number | undefined): Part | undefined {
  return value === undefined ? undefined : { label, words: mm(value) };
}

const bodyParts: Says = {
  clinic: (body) => [part("name", body.name)],
  protocolSet: (body) => [
    part(
      "value",
      `${protocolDefinition(body.key).label}: ${body.value} ${protocolDefinition(body.key).unit}`,
    ),
  ],
  person: (body) => [
    part("name", body.name),
    part("born", body.birthDate && fullDay(body.birthDate)),
    part("record number", body.identifier),
    part("telephone", body.phone),
    part("language", body.language),
    part("interpreter", body.interpreter && "needed"),
    part("sight", body.sight),
    part("hands", body.dexterity),
    part(
      "changed by",
      body.caredForBy && { self: "the person", helper: "a helper", nurse: "a nurse" }[body.caredForBy],
    ),
    part("helper", body.helperName),
    part("home since", body.homeOn && fullDay(body.homeOn)),
  ],
  stoma: (body) => [
    part("type", stomaWords(body.type, body.construction)),
    part("surgery", body.surgeryOn ? roughDay(body.surgeryOn, "0000-00-00") : "date not known"),
    part("side", body.side && (body.side === "middle" ? "middle" : `person’s ${body.side}`)),
    part("label", body.label),
  ],
  measured: (body) => [
    part("how", body.method),
    ...shapeParts(body.shape),
    sized("ring step", body.stepMm),
    sized("height", body.heightMm),
    part("posture", body.posture),
    part("from", body.source),
    part("note", body.note),
  ],
  cut: (body) => [
    part(
      "how",
      { sheet: "from a sheet", byHand: "by hand", preCut: "pre-cut", moulded: "moulded" }[body.how],
    ),
    ...shapeParts(body.opening),
    sized("gap each side", body.clearanceMm),
    part("note", body.note),
  ],
  fitted: ({ system, plannedIntervalDays, note }) => [
    part("system", system.name),
    part("kind", `${system.pieces}-piece, ${closureWords[system.closure].toLowerCase()}, ${system.barrier}`),
    part("opening", { cutToFit: "cut-to-fit", preCut: "pre-cut", mouldable: "mouldable" }[system.opening]),
    sized("pre-cut size", system.preCutMm),
    sized("widest opening", system.maxOpeningMm),
    sized("starter hole", system.starterHoleMm),
    sized("barrier across", system.barrierAcrossMm),
    part("planned change", plannedIntervalDays !== undefined && `every ${days(plannedIntervalDays)}`),
    part("note", note),
  ],
  changed: (body, zone) => [
    part("what", changedPartWords[body.what]),
    part("why", changeReasonWords[body.why].toLowerCase()),
    part("where", body.leakHours && hoursWords(body.leakHours)),
    part("last seen sound", body.lastSoundAt && soundWords(body.lastSoundAt, zone)),
    part("system", body.systemName),
    part("note", body.note),
  ],
  event: (body) => [part("what", happeningWords[body.what]), part("note", body.note)],
  noted: (body) => [part("note", body.text)],
  skin: (body) => [
    part("seen", body.findings.map(findingWords).join("; ") || "nothing found"),
    part("felt", body.feels?.join(", ")),
    part("note", body.note),
  ],
  consented: (body) => [
    part(
      body.given ? "agreed to" : "did not agree to, or took back",
      body.purposes.map(purposeWords).join("; "),
    ),
    part("said by", body.by === "representative" ? body.representativeName : "the person"),
    part("how", body.how),
    part("note", body.note),
  ],
  sited: (body) => [
    part("for", `${body.emergency ? "emergency, " : ""}${stomaTypeWords[body.stomaType]}`),
    part("operation", body.procedure),
    part("marked", body.marks?.map(markWords).join("; ")),
    part("made", body.madeAt && navelWords(body.madeAt)),
    part("looked at", body.postures?.join(", ")),
    part("signed by", body.signedBy),
    part("note", body.note),
  ],
  advised: (body) => [
    part("sheet", `number ${body.sheetNumber}, ${body.paper}`),
    part("said", body.words.join(" ")),
  ],
};

function findingWords({ what, place }: BodyOf<"skin">["findings"][number]): string {
  if ("outline" in place) return `${skinSignWords[what]}, drawn`;
  const { hours, reachMm } = place;
  const where = hours.from === hours.to ? `at ${hours.from} o’clock` : `${hours.from} to ${hours.to} o’clock`;
  return `${skinSignWords[what]} ${where}, ${reachMm.from} to ${mm(reachMm.to)} from the stoma`;
}

function markWords({ rank, at, note }: NonNullable<BodyOf<"sited">["marks"]>[number]): string {
  return `${rank}: ${navelWords(at)}${note ? `, ${note}` : ""}`;
}

/** A place on the body map, as it is found from the navel. */
function navelWords([x, y]: readonly [number, number]): string {
  return `${mm(Math.abs(x))} ${x < 0 ? "right" : "left"} of the navel, ${mm(Math.abs(y))} ${y < 0 ? "below" : "above"} it`;
}

function purposeWords(purpose: PhotoPurpose): string {
  return photoPurposeWords[purpose];
}

function shapeParts(shape: RecordedShape): (Part | undefined)[] {
  if ("outline" in shape) return [part("shape", `outline of ${shape.outline.length} points`)];
  const { guide } = shape;
  if (guide.shape === "round") return [sized("across", guide.diameterMm)];
  return [
    sized("length", guide.lengthMm),
    sized("width", guide.widthMm),
    part("tilt", guide.tiltDeg !== 0 && `${guide.tiltDeg}°`),
  ];
}

function soundWords(instant: string, zone: string): string {
  const date = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", timeZone: zone });
  return `${date.format(Date.parse(instant))} ${timeOfDay(instant, zone)}`;
}
