import { useState } from "react";
import type { Protocol } from "../../../domain/protocol/index.ts";
import { type PrintScale, usePrintScale } from "../../shared/printer/index.ts";
import { Button, Form } from "../../shared/ui/index.ts";
import { BarFields } from "../fitting/sheet/BarFields.tsx";
import { asTyped, readBars } from "../fitting/sheet/bars.ts";

interface PrinterProps {
  paper: "A4" | "Letter";
  protocol: Protocol;
}

/** How true this browser's printer prints, from the two bars of a printed page measured with a ruler. */
export function PrinterPart({ paper, protocol }: PrinterProps) {
  const [scale, saveScale] = usePrintScale();
  return (
    <section className="setup-part">
      <h2>Printer</h2>
      <p>
        Print a <a href={`/api/frame-card.pdf?paper=${paper}`}>frame card</a> at actual size, lay a ruler
        along its two bars and write down what it says. Sheets printed from this browser are then drawn to
        match.
      </p>
      <ScaleForm
        key={JSON.stringify(scale)}
        scale={scale}
        save={saveScale}
        tolerancePercent={protocol.barTolerancePercent}
      />
      {scale && <ScaleWords paper={paper} scale={scale} tolerancePercent={protocol.barTolerancePercent} />}
    </section>
  );
}

function ScaleForm({
  scale,
  save,
  tolerancePercent,
}: {
  scale: PrintScale | null;
  save: (scale: PrintScale | null) => void;
  tolerancePercent: number;
}) {
  const [typed, setTyped] = useState(() => asTyped(scale));
  const [tried, setTried] = useState(false);
  const read = readBars(typed, tolerancePercent);
  const send = () => {
    setTried(true);
    if ("scale" in read) save(read.scale);
  };
  return (
    <Form label="Printer’s bars" onSend={send}>
      <BarFields
        value={typed}
        onChange={setTyped}
        read={read.said === "nothing" ? { said: "unreadable" } : read}
        tried={tried}
      />
      <p className="formend">
        <Button type="submit">Keep for this browser</Button>
        {scale && <Button onClick={() => save(null)}>Forget</Button>}
      </p>
    </Form>
  );
}

function ScaleWords({
  paper,
  scale,
  tolerancePercent,
}: {
  paper: string;
  scale: PrintScale;
  tolerancePercent: number;
}) {
  const offPercent = (Math.max(Math.abs(scale.x - 1), Math.abs(scale.y - 1)) * 100).toFixed(1);
  const { said } = readBars(asTyped(scale), tolerancePercent);
  return (
    <p className="small">
      {said === "off" ? (
        <>
          This printer is off by <b>{offPercent} %</b>; sheets are drawn to make up for it. Measure the bars
          of every sheet all the same. Here is a{" "}
          <a href={`/api/frame-card.pdf?paper=${paper}&x=${scale.x}&y=${scale.y}`}>frame card drawn for it</a>
          .
        </>
      ) : (
        <>
          This printer is true to within <b>{offPercent} %</b>.
        </>
      )}{" "}
      <span className="note">Protocol: {tolerancePercent} %</span>
    </p>
  );
}
