import { useState } from "react";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { PrintScale } from "../../../shared/printer/index.ts";
import { Button, Form } from "../../../shared/ui/index.ts";
import { BarFields } from "./BarFields.tsx";
import { type BarsTyped, readBars, togetherWith } from "./bars.ts";
import type { SheetMade } from "./useSheet.ts";

/** A sheet was made: open it, print it at actual size, measure its bars before anybody cuts. */
export function MadeSheet({
  made,
  number,
  protocol,
  busy,
  onReprint,
  onTrue,
  onClose,
}: {
  made: SheetMade;
  number: number | null;
  protocol: Protocol;
  busy: boolean;
  /** The sheet is off: print again for a printer of this scale. */
  onReprint: (printer: PrintScale) => void;
  /** The sheet is true: this is the printer's scale. */
  onTrue: (printer: PrintScale) => void;
  onClose: () => void;
}) {
  const name = number === null ? "The sheet" : `Sheet ${number}`;
  return (
    <>
      <p className="lead" role="status">
        <b>{name}</b> is made and stands in the record.
      </p>
      <p className="formend">
        <a className="button" href={made.url} target="_blank" rel="noreferrer">
          Open the sheet
        </a>
        <a
          className="button"
          href={made.url}
          download={`cutting-sheet${number === null ? "" : `-${number}`}.pdf`}
        >
          Keep the file
        </a>
      </p>
      <ul className="fit-doubts">
        <li>
          Print at <b>100 %</b>, “actual size”, never “fit to page”: a page that is fitted comes out up to 6 %
          small.
        </li>
        <li>Measure the bars before anybody cuts. A sheet whose bars were not measured must not be used.</li>
        <li>The nurse decides; earlier sheets for this stoma are void.</li>
      </ul>
      <BarCheck
        key={made.adviceId}
        made={made}
        protocol={protocol}
        busy={busy}
        onReprint={onReprint}
        onTrue={onTrue}
        onClose={onClose}
      />
    </>
  );
}

function BarCheck({
  made,
  protocol,
  busy,
  onReprint,
  onTrue,
  onClose,
}: Omit<Parameters<typeof MadeSheet>[0], "number">) {
  const [bars, setBars] = useState<BarsTyped>({ across: "", upright: "" });
  const [tried, setTried] = useState(false);
  const [confirmed, setConfirmed] = useState(false);
  const read = readBars(bars, protocol.barTolerancePercent);
  const measured = read.said === "true" || read.said === "off" ? read.scale : null;
  const send = () => {
    setTried(true);
    if (!measured) return;
    const printer = togetherWith(made.printScale, measured);
    if (read.said === "off") return onReprint(printer);
    setConfirmed(true);
    onTrue(printer);
  };
  return (
    <Form label="Check the bars" onSend={send}>
      <h3>What do the bars on this sheet measure?</h3>
      <BarFields
        value={bars}
        onChange={(typed) => {
          setBars(typed);
          setConfirmed(false);
        }}
        read={read.said === "nothing" ? { said: "unreadable" } : read}
        tried={tried}
      />
      <p className="small" role="status">
        {read.said === "off" && (
          <>
            <b>Do not cut from this sheet.</b> It is off by {offPercent(read.scale)} %, over the protocol’s{" "}
            {protocol.barTolerancePercent} %.
          </>
        )}
        {confirmed && (
          <>
            <b>The bars are true.</b> The sheet may be used.
          </>
        )}
      </p>
      <p className="formend">
        {confirmed ? (
          <Button first onClick={onClose}>
            Done
          </Button>
        ) : (
          <Button first type="submit" busy={busy}>
            {read.said === "off" ? "Make a corrected sheet" : "Check the bars"}
          </Button>
        )}
      </p>
    </Form>
  );
}

function offPercent({ x, y }: PrintScale): string {
  return (100 * Math.max(Math.abs(x - 1), Math.abs(y - 1))).toFixed(1);
}
