import { useState } from "react";
import type { Protocol } from "../../../domain/protocol/index.ts";
import type { PouchingSystem } from "../../../record/entry/index.ts";
import type { StomaStory } from "../../../record/story/index.ts";
import { Button } from "../../shared/ui/index.ts";
import { cautionsOf } from "./FiguresPart.tsx";
import { PutInUseDialog } from "./saving/index.ts";
import { PrintDialog, SheetPreview } from "./sheet/index.ts";
import type { Figures } from "./useFigures.ts";
import type { OnPlate } from "./useOnPlate.ts";

/** What the figures are for: a sheet to cut from, and the opening put into use. */
export function ActionsPart({
  plate,
  figures,
  stoma,
  personId,
  zone,
  clearanceMm,
  system,
  protocol,
  paper,
  save,
}: {
  plate: OnPlate;
  figures: Figures;
  stoma: StomaStory;
  personId: string;
  zone: string;
  clearanceMm: number | null;
  system: PouchingSystem | null;
  protocol: Protocol;
  paper: "A4" | "Letter";
  save: () => Promise<string>;
}) {
  const [open, setOpen] = useState<"print" | "cut" | null>(null);
  const [done, setDone] = useState(false);
  const { subject, writing, body } = plate;
  const opening = figures.proposed?.proposed ?? null;
  if (!subject || !opening || clearanceMm === null) return null;
  const old = subject.reading !== null && subject.reading !== stoma.readings.at(-1);
  if (old) {
    return (
      <p className="small fit-actions">
        A newer reading is in the record: sheets are cut from the newest one only.
      </p>
    );
  }
  const readingId = async () => (subject.reading ? subject.reading.entryId : save());
  const ready = !writing || body !== null;
  return (
    <section className="fit-actions" aria-label="Cutting">
      <div className="fit-print">
        <SheetPreview paper={paper} stoma={subject.outline} opening={opening.outline} />
        <div>
          <Button first={!writing} disabled={!ready} onClick={() => setOpen("print")}>
            Print cutting sheet
          </Button>
          <Button disabled={!ready} onClick={() => setOpen("cut")}>
            Put this opening in use
          </Button>
          {!ready && <p className="note">First mend what is marked in the reading.</p>}
          <p className="note">
            {paper}, actual size, both faces. Asks for the length of the check bars before the sheet may be
            used.
          </p>
          {done && (
            <p className="fit-saved" role="status">
              <b>In use.</b> From now on the lists judge this opening.
            </p>
          )}
        </div>
      </div>
      {open === "print" && (
        <PrintDialog
          personId={personId}
          stoma={stoma}
          clearanceMm={clearanceMm}
          paper={paper}
          protocol={protocol}
          cautions={cautionsOf(plate, figures)}
          against={againstCutting(figures, clearanceMm)}
          unsaved={writing}
          readingId={readingId}
          onClose={() => setOpen(null)}
        />
      )}
      {open === "cut" && (
        <PutInUseDialog
          personId={personId}
          stomaId={stoma.stomaId}
          zone={zone}
          cut={{
            stoma: subject.outline,
            stomaShape: subject.shape,
            opening: opening.outline,
            clearanceMm,
            holeAcrossMm: opening.holeAcrossMm,
          }}
          system={system}
          protocol={protocol}
          unsaved={writing}
          readingId={readingId}
          onDone={() => {
            setOpen(null);
            setDone(true);
          }}
          onClose={() => setOpen(null)}
        />
      )}
    </section>
  );
}

/** What makes a barrier the wrong one for this opening; anything else the nurse is told and decides. */
const wrongBarrier: readonly string[] = ["largerThanMaxOpening", "smallerThanStarterHole"];

/** Why no sheet can be made of this opening. */
function againstCutting({ proposed }: Figures, clearanceMm: number): string[] {
  const texts = (proposed?.reasons ?? [])
    .filter(({ code }) => wrongBarrier.includes(code))
    .map(({ text }) => `${text} Choose another system on the person’s page first.`);
  return clearanceMm < 0
    ? [...texts, "A sheet needs a gap of 0 mm or more: a smaller opening cuts the stoma."]
    : texts;
}
