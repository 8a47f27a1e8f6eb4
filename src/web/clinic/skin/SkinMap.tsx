import { type PointerEvent, useMemo, useRef, useState } from "react";
import {
  areaMm2,
  centroidMm,
  clockDirection,
  findCrossing,
  type Outline,
  outlineOf,
  type Point,
  simplify,
} from "../../../domain/outline/index.ts";
import { skinRegion } from "../../../domain/skin/index.ts";
import type { BodyOf, RecordedShape } from "../../../record/entry/index.ts";
import { Button } from "../../shared/ui/index.ts";
import { skinSignWords } from "../../shared/words/index.ts";
import { useSkinPicture } from "./picture.ts";
import "./skin.css";

type Finding = BodyOf<"skin">["findings"][number];

/** Shown each way beyond the stoma's centre, mm. */
const viewMm = 55;
const ringsMm = [10, 20, 30] as const;
/** A drawn line is kept to this, and one smaller than this was a slip of the pen. */
const keptToMm = 0.3;
const leastAreaMm2 = 4;

/** The stoma with the skin round it, as one faces the person, and what was seen where. Drawn on with the pen. */
export function SkinMap({
  about,
  findings,
  onDrawn,
}: {
  about: RecordedShape;
  findings: readonly Finding[];
  onDrawn?: (outline: Point[]) => void;
}) {
  const stoma = useMemo(() => {
    const outline = outlineOf(about);
    const [x, y] = centroidMm(outline);
    return { outline, centre: [x, y] as const };
  }, [about]);
  const [drawing, setDrawing] = useState(false);
  const [said, setSaid] = useState("");
  const picture = useSkinPicture();
  const [cx, cy] = stoma.centre;
  const take = (line: Point[]) => {
    setDrawing(false);
    const outline = line.length > 3 ? simplify(line, keptToMm) : line;
    if (outline.length < 3 || areaMm2(outline) < leastAreaMm2) {
      return setSaid("The line encloses next to nothing. Draw once round the place.");
    }
    if (findCrossing(outline)) return setSaid("The line crosses itself. Draw once round the place.");
    setSaid("");
    onDrawn?.(outline.map(([x, y]) => [Math.round(x * 100) / 100, Math.round(y * 100) / 100]));
  };
  return (
    <figure className="skin-map">
      <svg
        viewBox={`${cx - viewMm} ${-cy - viewMm} ${2 * viewMm} ${2 * viewMm}`}
        role="img"
        aria-label={mapWords(findings)}
      >
        {picture && <Picture {...picture} centre={stoma.centre} />}
        {ringsMm.map((mm) => (
          <Ring key={mm} stoma={stoma.outline} mm={mm} />
        ))}
        {hours.map((hour) => (
          <Hour key={hour} hour={hour} centre={stoma.centre} />
        ))}
        {findings.map((finding, at) => (
          <Area
            // biome-ignore lint/suspicious/noArrayIndexKey: findings have no names, and none is moved
            key={at}
            number={at + 1}
            finding={finding}
            stoma={stoma.outline}
          />
        ))}
        <path className={picture ? "skin-stoma seen" : "skin-stoma"} d={outlinePath(stoma.outline)} />
        {drawing && <Pen centre={stoma.centre} onDrawn={take} />}
      </svg>
      <figcaption className="note">
        Seen facing the person: 12 toward the head, 3 at their left. Rings 10, 20 and 30 mm from the stoma.
      </figcaption>
      {onDrawn && (
        <p>
          <Button aria-pressed={drawing} onClick={() => setDrawing(!drawing)}>
            {drawing ? "Stop drawing" : "Draw a place on the map"}
          </Button>
        </p>
      )}
      {said && (
        <p className="wrong" role="alert">
          {said}
        </p>
      )}
    </figure>
  );
}

const hours = Array.from({ length: 12 }, (_, at) => at + 1);

function mapWords(findings: readonly Finding[]): string {
  if (findings.length === 0) return "The stoma and the skin round it; nothing is marked.";
  const seen = findings.map(({ what }, at) => `${at + 1}, ${skinSignWords[what]}`);
  return `The stoma and the skin round it; marked: ${seen.join("; ")}.`;
}

function outlinePath(outline: readonly Point[]): string {
  return `${outline.map(([x, y], at) => `${at === 0 ? "M" : "L"}${x.toFixed(2)} ${(-y).toFixed(2)}`).join("")}Z`;
}

function Picture({
  url,
  sidePx,
  mmPerPx,
  middleMm,
  centre,
}: NonNullable<ReturnType<typeof useSkinPicture>> & { centre: Point }) {
  const side = sidePx * mmPerPx;
  const [x, y] = [centre[0] + middleMm[0], centre[1] + middleMm[1]];
  return <image href={url} x={x - side / 2} y={-y - side / 2} width={side} height={side} />;
}

function Ring({ stoma, mm }: { stoma: Outline; mm: number }) {
  const d = useMemo(() => {
    const [whole] = skinRegion({ hours: { from: 1, to: 12 }, reachMm: { from: 0, to: mm } }, stoma);
    return whole ? outlinePath(whole) : "";
  }, [stoma, mm]);
  return <path className="skin-ring" d={d} />;
}

function Hour({ hour, centre }: { hour: number; centre: Point }) {
  const [dx, dy] = clockDirection(hour);
  const far = viewMm - 4;
  return (
    <text className="skin-hour" x={centre[0] + dx * far} y={-(centre[1] + dy * far)}>
      {hour}
    </text>
  );
}

function Area({ number, finding, stoma }: { number: number; finding: Finding; stoma: Outline }) {
  const region = useMemo(() => skinRegion(finding.place, stoma), [finding, stoma]);
  const largest = region.reduce<Outline | null>(
    (most, part) => (most && areaMm2(most) >= areaMm2(part) ? most : part),
    null,
  );
  if (!largest) return null;
  // A ring's own middle lies on the stoma: the number stands on the edge then.
  const all = "hours" in finding.place && finding.place.hours.to - finding.place.hours.from === 11;
  const [x, y] = all ? largest[0]! : centroidMm(largest);
  return (
    <g>
      <path className="skin-area" d={region.map(outlinePath).join("")} fillRule="evenodd" />
      <text className="skin-number" x={x} y={-y}>
        {number}
      </text>
    </g>
  );
}

/** A sheet over the map that the pen draws on. */
function Pen({ centre, onDrawn }: { centre: Point; onDrawn: (line: Point[]) => void }) {
  const [line, setLine] = useState<Point[]>([]);
  const pen = useRef<number | null>(null);
  const placeOf = (event: PointerEvent<SVGRectElement>): Point => {
    const { left, top, width } = event.currentTarget.ownerSVGElement!.getBoundingClientRect();
    const mm = (2 * viewMm) / width;
    return [
      centre[0] - viewMm + (event.clientX - left) * mm,
      centre[1] + viewMm - (event.clientY - top) * mm,
    ];
  };
  return (
    <g>
      <rect
        className="skin-sheet"
        x={centre[0] - viewMm}
        y={-centre[1] - viewMm}
        width={2 * viewMm}
        height={2 * viewMm}
        onPointerDown={(event) => {
          event.preventDefault();
          event.currentTarget.setPointerCapture(event.pointerId);
          pen.current = event.pointerId;
          setLine([placeOf(event)]);
        }}
        onPointerMove={(event) => {
          if (pen.current === event.pointerId) setLine([...line, placeOf(event)]);
        }}
        onPointerUp={(event) => {
          if (pen.current !== event.pointerId) return;
          pen.current = null;
          onDrawn(line);
        }}
      />
      {line.length > 1 && <path className="skin-pen" d={outlinePath(line)} />}
    </g>
  );
}
