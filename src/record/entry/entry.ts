import { z } from "zod";
import { type Fault, faultsOf } from "../../domain/fault.ts";
import { at } from "./at.ts";
import { type BodyOf, type Kind, kindNames, kinds, type Scope } from "./kinds/index.ts";

export const author = z.strictObject({ id: z.uuid(), name: z.string().min(1).max(160) });
export type Author = z.infer<typeof author>;

/** Everything of an entry but its body, which its kind checks. */
export const envelope = z.strictObject({
  id: z.uuidv7(),
  clinicId: z.uuid(),
  personId: z.uuid().nullable(),
  stomaId: z.uuid().nullable(),
  kind: z.enum(kindNames as [Kind, ...Kind[]]),
  schemaVersion: z.number().int().min(1),
  at,
  recordedAt: z.iso.datetime(),
  by: author,
  reportedBy: z.string().trim().min(1).max(160).optional(),
  corrects: z.strictObject({ id: z.uuid(), as: z.enum(["replace", "retract"]) }).optional(),
  reason: z.string().trim().min(1).max(1000).optional(),
  body: z.unknown(),
});
type Envelope = Omit<z.infer<typeof envelope>, "kind" | "body">;

/** One thing that was written down: never changed, only corrected by another. */
export type Entry<K extends Kind = Kind> = K extends Kind ? Envelope & { kind: K; body: BodyOf<K> } : never;

/** An entry with its place in the order in which the store committed it. */
export type StoredEntry<K extends Kind = Kind> = Entry<K> & { cursor: number };

/** What a writer knows; the store's edge adds the clinic, the author and the time of writing. */
export type Draft<K extends Kind = Kind> = K extends Kind
  ? Omit<Entry<K>, "clinicId" | "by" | "recordedAt">
  : never;

/** Brings a stored body up to the current version of its kind. */
export function upcast(kind: Kind, version: number, body: unknown): unknown {
  const { version: current, upcasters } = kinds[kind];
  let upcasted = body;
  for (let from = version; from < current; from += 1) {
    const step = upcasters[from];
    if (!step) throw new Error(`no upcaster for ${kind} from version ${from}`);
    upcasted = step(upcasted);
  }
  return upcasted;
}

export type Checked = { entry: Entry; faults?: undefined } | { entry?: undefined; faults: Fault[] };

/** Checks an entry of any kind; every fault is reported, paths as in the entry. */
export function checkEntry(input: unknown): Checked {
  const outer = envelope.safeParse(input);
  if (!outer.success) return { faults: faultsOf(outer.error, input) };
  const { kind, schemaVersion } = outer.data;
  const definition = kinds[kind];
  if (schemaVersion > definition.version) {
    return {
      faults: [
        {
          path: "schemaVersion",
          problem: "is newer than this program reads",
          got: schemaVersion,
          expected: `at most ${definition.version} for ${kind}`,
        },
      ],
    };
  }
  const faults = [...scopeFaults(definition.scope, outer.data), ...reasonFaults(outer.data)];
  const body = definition.body.safeParse(upcast(kind, schemaVersion, outer.data.body));
  if (!body.success) {
    const inBody = faultsOf(body.error, outer.data.body);
    faults.push(...inBody.map((fault) => ({ ...fault, path: fault.path ? `body.${fault.path}` : "body" })));
  }
  if (faults.length > 0 || !body.success) return { faults };
  return { entry: { ...outer.data, schemaVersion: definition.version, body: body.data } as Entry };
}

function scopeFaults(scope: Scope, ids: { personId: string | null; stomaId: string | null }): Fault[] {
  const faults: Fault[] = [];
  const must = (path: "personId" | "stomaId", present: boolean) => {
    if ((ids[path] !== null) === present) return;
    const problem = present ? "is missing" : "does not belong here";
    faults.push({ path, problem, got: ids[path], expected: present ? "an id" : "null" });
  };
  must("personId", scope !== "clinic");
  if (scope === "stoma") must("stomaId", true);
  if (scope === "clinic" || scope === "person") must("stomaId", false);
  return faults;
}

/** What changes the record or the protocol must say why. */
function reasonFaults({
  kind,
  corrects,
  reason,
}: Pick<Envelope, "corrects" | "reason"> & { kind: Kind }): Fault[] {
  if (reason !== undefined || (corrects === undefined && kind !== "protocolSet")) return [];
  const expected = corrects ? "why the entry is corrected" : "why the value is changed";
  return [{ path: "reason", problem: "is missing", got: undefined, expected }];
}
