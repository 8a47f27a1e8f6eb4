import { useState } from "react";
import type { Protocol } from "../../../domain/protocol/index.ts";
import { useSession } from "../../shared/api/index.ts";
import { type PrintScale, usePrintScale } from "../../shared/printer/index.ts";
import { Button, Form, NumberField } from "../../shared/ui/index.ts";
import { readDecimal } from "../../shared/words/index.ts";

const nominalMm = { across: 100, upright: 50 };

/** How true this browser's printer prints, from the two bars of a printed page measured with a ruler. */
export function PrinterPart({ paper }: { paper: "A4" | "Letter" }) {
  const [scale, saveScale] = usePrintScale();
  const protocol = useSession().data?.protocol;
  return (
    <section className="setup-part">
      <h2>Printer</h2>
      <p>
        Print the <a href={frameCardAddress(paper, scale)}>frame card</a> at actual size, lay a ruler along
        its two check bars and write down what it says. Sheets printed from this browser are then drawn to
        match.
      </p>
      <ScaleForm key={JSON.stringify(scale)} scale={scale} save={saveScale} />
      {scale && protocol && <ScaleWords scale={scale} protocol={protocol} />}
    </section>
  );
}

function frameCardAddress(paper: "A4" | "Letter", scale: PrintScale | null): string {
  const query = new URLSearchParams({ paper });
  if (scale) {
    query.set("x", String(scale.x));
    query.set("y", String(scale.y));
  }
  return `/api/frame-card.pdf?${query}`;
}

function ScaleForm({ scale, save }: { scale: PrintScale | null; save: (scale: PrintScale | null) => void }) {
  const [across, setAcross] = useState(scale ? String(round(scale.x * nominalMm.across)) : "");
  const [upright, setUpright] = useState(scale ? String(round(scale.y * nominalMm.upright)) : "");
  const [tried, setTried] = useState(false);
  const x = believable(across, nominalMm.across);
  const y = believable(upright, nominalMm.upright);
  const wrong = (value: number | null, nominal: number) =>
    tried && value === null ? `Write a length within a tenth of ${nominal} mm.` : undefined;
  const send = () => {
    setTried(true);
    if (x !== null && y !== null) save({ x, y });
  };
  return (
    <Form label="Printer's check bars" onSend={send}>
      <div className="fields">
        <NumberField
          label={`${nominalMm.across} mm bar, across`}
          unit="mm"
          value={across}
          onChange={setAcross}
          error={wrong(x, nominalMm.across)}
        />
        <NumberField
          label={`${nominalMm.upright} mm bar, upright`}
          unit="mm"
          value={upright}
          onChange={setUpright}
          error={wrong(y, nominalMm.upright)}
        />
      </div>
      <p className="formend">
        <Button type="submit">Keep for this browser</Button>
        {scale && <Button onClick={() => save(null)}>Forget</Button>}
      </p>
    </Form>
  );
}

function ScaleWords({ scale, protocol }: { scale: PrintScale; protocol: Protocol }) {
  const offPercent = Math.max(Math.abs(scale.x - 1), Math.abs(scale.y - 1)) * 100;
  const limit = protocol.barTolerancePercent;
  return (
    <p className="small">
      {offPercent > limit ? (
        <>
          This printer is off by <b>{offPercent.toFixed(1)} %</b>; sheets are drawn to make up for it. Measure
          the bars on every sheet.
        </>
      ) : (
        <>
          This printer is true to within <b>{offPercent.toFixed(1)} %</b>.
        </>
      )}{" "}
      <span className="note">Protocol: {limit} %</span>
    </p>
  );
}

/** Measured over nominal, where it can be a printer's doing: beyond a tenth the wrong bar was measured. */
function believable(text: string, nominal: number): number | null {
  const measured = readDecimal(text);
  return measured !== null && Math.abs(measured / nominal - 1) <= 0.1 ? measured / nominal : null;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
