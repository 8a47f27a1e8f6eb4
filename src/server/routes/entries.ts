import { z } from "zod";
import { type Fault, InputError } from "../../domain/fault.ts";
import { acceptDrafts } from "../../record/accept/index.ts";
import { photosWithdrawn } from "../../record/photo/index.ts";
import { mayWrite, signedInOf } from "../access/index.ts";
import { authorOf } from "../author.ts";
import type { Bench, Workings } from "../bench.ts";
import { Refusal } from "../errors/refusal.ts";
import { draftSchema } from "../schemas.ts";

const body = z.strictObject({ entries: z.array(draftSchema).min(1).max(200) });

/** Two hundred entries with outlines in them. */
const bodyLimit = 4 * 1024 * 1024;

/** Writes into the record: all of the entries or none. */
export function entriesRoutes(bench: Bench, { store, clinic, now }: Workings): void {
  bench.post(
    "/api/entries",
    {
      bodyLimit,
      schema: {
        summary: "Append entries, all or none; sending them again with the same ids is harmless",
        body,
      },
    },
    async (request, reply) => {
      const story = await clinic.story(request);
      const { entries: drafts } = request.body;
      const { role } = signedInOf(request).account;
      if (!drafts.every((draft) => mayWrite(role, kindOf(draft)))) throw new Refusal("roleForbids");
      const faults = drafts.flatMap(benchKindFaults);
      if (faults.length > 0) throw new InputError(faults);
      const author = authorOf(request);
      const kept = await acceptDrafts(store, story, drafts, {
        author,
        nowMs: now(),
        alongside: (entries) => {
          const [audited, withdrawn] = [request.alongside(entries), photosWithdrawn(entries)];
          return async (trx) => {
            await withdrawn(trx);
            await audited(trx);
          };
        },
      });
      return reply.code(201).send({ entries: kept });
    },
  );
}

/** Written by the bench itself, where what they say is made; taking one back is the nurse's to do. */
const benchKinds: Record<string, string> = {
  clinic: "POST /api/clinic",
  advised: "the bench, when it makes a sheet",
};

function benchKindFaults(draft: unknown, index: number): Fault[] {
  const { corrects } = (draft ?? {}) as { corrects?: { as?: unknown } };
  const kind = kindOf(draft);
  const writer = typeof kind === "string" && Object.hasOwn(benchKinds, kind) ? benchKinds[kind] : undefined;
  if (writer === undefined || corrects?.as === "retract") return [];
  return [
    {
      path: `entries.${index}.kind`,
      problem: "is not written this way",
      got: kind,
      expected: `to be written by ${writer}`,
    },
  ];
}

function kindOf(draft: unknown): unknown {
  return (draft as { kind?: unknown } | null)?.kind;
}
