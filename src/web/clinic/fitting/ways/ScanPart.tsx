import { useState } from "react";
import { magnification } from "../../../../domain/outline/index.ts";
import { Button, Check, NumberField } from "../../../shared/ui/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";
import { type Scan, toScale } from "../state/index.ts";
import { AngleField, quarterOn } from "./AngleField.tsx";
import type { Tool } from "./TracingPart.tsx";

const [heightMm, distanceMm] = [20, 300];
/** What a hand-held photograph does to a stoma of usual height. */
const photo = {
  heightMm,
  distanceMm,
  largerPercent: Math.round((magnification(heightMm, distanceMm) - 1) * 100),
};

/** A scan is brought to scale by two marks a known distance apart, turned head up, then traced over. */
export function ScanPart({
  scan,
  onScan,
  tool,
  onTool,
}: {
  scan: Scan;
  onScan: (scan: Scan | null) => void;
  tool: Tool;
  onTool: (tool: Tool) => void;
}) {
  const [wrong, setWrong] = useState<string | null>(null);
  const setTheScale = () => {
    const scaled = toScale(scan, readDecimal(scan.apartMm) ?? 0);
    setWrong(scaled ? null : "Lay the marks further apart, and write the distance between them in mm.");
    if (!scaled) return;
    onScan(scaled);
    onTool("draw");
  };
  return (
    <fieldset className="fit-scan">
      <legend>The scan</legend>
      <p className="note">
        Lay the two marks on places a known distance apart, such as the ends of a 50 mm bar. The picture stays
        in this tab and is never saved: only the line is.
      </p>
      <p className="note">
        A photograph is not a scan: the rim of a stoma {photo.heightMm} mm high looks {photo.largerPercent} %
        too large from {photo.distanceMm} mm. Trace the base at the skin, and check it with a ring.
      </p>
      <div className="fit-tools">
        <Button aria-pressed={tool === "marks"} onClick={() => onTool("marks")}>
          Move the marks
        </Button>
        <Button aria-pressed={tool === "move"} onClick={() => onTool("move")}>
          Move the scan
        </Button>
      </div>
      <div className="fit-fields">
        <NumberField
          label="Between the marks"
          unit="mm"
          value={scan.apartMm}
          onChange={(apartMm) => onScan({ ...scan, apartMm, toScale: false })}
          error={wrong ?? undefined}
        />
        <AngleField
          label="Turn, clockwise"
          value={scan.turnDeg}
          onChange={(turnDeg) => onScan({ ...scan, turnDeg })}
        />
        <div className="fit-turn">
          <Button onClick={() => onScan({ ...scan, turnDeg: quarterOn(scan.turnDeg) })}>Turn by 90°</Button>
        </div>
      </div>
      <Check
        label="Seen from the skin side: left and right change places"
        checked={scan.mirrored}
        onChange={(mirrored) => onScan({ ...scan, mirrored })}
      />
      <div className="fit-tools">
        <Button onClick={setTheScale}>
          {scan.toScale ? "Set the scale again" : "Set the scale and trace"}
        </Button>
        <Button onClick={() => onScan(null)}>Take the scan away</Button>
      </div>
      {!scan.toScale && (
        <p className="wrong" role="status">
          Not to scale yet: nothing can be traced over it.
        </p>
      )}
    </fieldset>
  );
}
