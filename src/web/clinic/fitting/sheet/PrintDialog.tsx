import { useState } from "react";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { StomaStory } from "../../../../record/story/index.ts";
import { usePrintScale } from "../../../shared/printer/index.ts";
import { Button, Choice, Dialog, ErrorNote, Form } from "../../../shared/ui/index.ts";
import { BarFields } from "./BarFields.tsx";
import { asTyped, type BarsTyped, correctionFor, readBars } from "./bars.ts";
import { MadeSheet } from "./MadeSheet.tsx";
import { type SheetMade, useSheet } from "./useSheet.ts";

const papers = [
  { value: "A4", label: "A4" },
  { value: "Letter", label: "Letter" },
] as const;

export interface PrintDialogProps {
  personId: string;
  stoma: StomaStory;
  clearanceMm: number;
  paper: "A4" | "Letter";
  protocol: Protocol;
  /** Cautions about this very opening, as sentences. */
  cautions: readonly string[];
  /** Why no sheet can be made of it; empty where one can. */
  against: readonly string[];
  /** The reading is not in the record yet. */
  unsaved: boolean;
  /** Saves the reading if need be; gives the id of the entry that the sheet rests on. */
  readingId: () => Promise<string>;
  onClose: () => void;
}

/** Asks for the paper and what this printer makes of 100 mm, then makes the sheet and asks for its bars. */
export function PrintDialog(props: PrintDialogProps) {
  const { personId, stoma, clearanceMm, protocol, cautions, against, unsaved, readingId, onClose } = props;
  const [paper, setPaper] = useState(props.paper);
  const [printer, keepPrinter] = usePrintScale();
  const [bars, setBars] = useState<BarsTyped>(() => asTyped(printer));
  const [tried, setTried] = useState(false);
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const { made, make } = useSheet();
  const read = readBars(bars, protocol.barTolerancePercent);

  const print = async (printScale: SheetMade["printScale"]) => {
    setBusy(true);
    setError(null);
    try {
      const measuredId = await readingId();
      const sheet = await make(measuredId, {
        personId,
        stomaId: stoma.stomaId,
        clearanceMm,
        paper,
        printScale,
      });
      window.open(sheet.url, "_blank");
    } catch (problem) {
      setError(problem);
    } finally {
      setBusy(false);
    }
  };
  const send = () => {
    setTried(true);
    if (read.said === "absurd" || read.said === "unreadable") return;
    keepPrinter("scale" in read ? read.scale : null);
    void print(correctionFor(read));
  };

  if (made) {
    return (
      <Dialog title="Cutting sheet" onClose={onClose}>
        <MadeSheet
          made={made}
          number={numberOf(stoma, made.adviceId)}
          protocol={protocol}
          busy={busy}
          onReprint={(printerScale) => {
            keepPrinter(printerScale);
            void print(printerScale);
          }}
          onTrue={keepPrinter}
          onClose={onClose}
        />
        <ErrorNote error={error} />
      </Dialog>
    );
  }
  if (against.length > 0) {
    return (
      <Dialog title="No sheet can be made" onClose={onClose}>
        <CautionList cautions={against} />
      </Dialog>
    );
  }
  return (
    <Dialog title="Print cutting sheet" onClose={onClose}>
      <Form label="Print cutting sheet" onSend={send}>
        {unsaved && <p>The reading is saved first, as it stands on the page.</p>}
        <CautionList cautions={cautions} />
        <Choice label="Paper" value={paper} onChange={setPaper} choices={papers} />
        <p className="small">
          What does your ruler say of this printer’s 100 mm bars, on the frame card or on an earlier sheet?
          Kept in this browser. Leave both blank if nobody has measured them: the sheet carries bars of its
          own.
        </p>
        <BarFields value={bars} onChange={setBars} read={read} tried={tried} />
        <p className="note">{barWords(read.said, protocol.barTolerancePercent)}</p>
        <ErrorNote error={error} />
        <p className="formend">
          <Button first type="submit" busy={busy}>
            {unsaved ? "Save the reading and make the sheet" : "Make the sheet"}
          </Button>
          <Button onClick={onClose}>Not now</Button>
        </p>
      </Form>
    </Dialog>
  );
}

function CautionList({ cautions }: { cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <ul className="fit-doubts">
      {cautions.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  );
}

function barWords(said: string, tolerancePercent: number): string {
  const protocol = `Protocol: ${100 - tolerancePercent} to ${100 + tolerancePercent} mm needs no correction.`;
  if (said === "off") return `The sheet is drawn to make up for this printer. ${protocol}`;
  if (said === "true") return `This printer is true. ${protocol}`;
  return protocol;
}

/** The number stands in the record; null until the page has read it back. */
function numberOf(stoma: StomaStory, adviceId: string): number | null {
  return stoma.sheets.find(({ first }) => first.id === adviceId)?.entry.body.sheetNumber ?? null;
}
