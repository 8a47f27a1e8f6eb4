import { useState } from "react";
import type { PrintScale } from "../../../shared/printer/index.ts";
import { Button } from "../../../shared/ui/index.ts";
import { BarFields } from "../sheet/BarFields.tsx";
import { asTyped, type BarsTyped, readBars } from "../sheet/bars.ts";

/** How true the cards in use were printed: a card printed "to fit the page" makes every stoma larger than it is. */
export function CardScalePart({
  scale,
  onScale,
  tolerancePercent,
}: {
  scale: PrintScale | null;
  onScale: (scale: PrintScale | null) => void;
  tolerancePercent: number;
}) {
  const [bars, setBars] = useState<BarsTyped>(() => asTyped(scale));
  const [open, setOpen] = useState(false);
  const read = readBars(bars, tolerancePercent);
  if (!open) {
    return (
      <p className={scale ? "note" : "wrong"}>
        {scale ? (
          `Cards of this batch: bars ${(scale.x * 100).toFixed(1)} mm across, ${(scale.y * 100).toFixed(1)} mm upright.`
        ) : (
          <>
            <b>Unscaled:</b> nobody has measured the bars of these cards. Printed to fit the page, one makes
            30 mm read about 32.
          </>
        )}{" "}
        <Button onClick={() => setOpen(true)}>{scale ? "Another batch" : "Measure the bars"}</Button>
      </p>
    );
  }
  return (
    <fieldset className="fit-scan">
      <legend>The bars printed with this batch of cards</legend>
      <BarFields value={bars} onChange={setBars} read={read} tried={false} />
      <p className="fit-tools">
        <Button
          onClick={() => {
            if (read.said === "true" || read.said === "off") onScale(read.scale);
            if (read.said === "nothing") onScale(null);
            if (read.said !== "unreadable" && read.said !== "absurd") setOpen(false);
          }}
        >
          Use these figures
        </Button>
        <Button onClick={() => setOpen(false)}>Not now</Button>
      </p>
    </fieldset>
  );
}
