import { card } from "../frame-card/index.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { fitView } from "./mapping/fitView.ts";
import { cornersOf, poseOf, startFrom } from "./mapping/place.ts";
import { type FoundMarker, findMarkers } from "./markers/find.ts";
import type { Pixels } from "./picture/pixels.ts";

/** What a frame of the camera shows, for the overlay while somebody aims. */
export interface LiveFrame {
  markers: readonly FoundMarker[];
  /** Null with fewer than four markers. */
  tiltDeg: number | null;
  distanceMm: number | null;
  /** How far edges are drawn out; null without markers. */
  blurMm: number | null;
  /** The one thing to do next; "hold" when the picture can be taken. */
  advice: "showCard" | "showAllMarkers" | "tiltLess" | "goNearer" | "holdSteadier" | "hold";
}

const allMarkers = 8;
/** A picture may be taken with room to spare below what would be refused. */
const spare = 0.6;
/** A frame is smaller than the photograph that will be taken. */
const frameBlurAllowance = 2;

/** Looks at one frame, of about 640 × 480: markers, slant and sharpness. Meant for several frames a second. */
export function liveFrame(frame: Pixels, protocol: Protocol = defaultProtocol): LiveFrame {
  const markers = findMarkers(frame);
  if (markers.length < protocol.photoLeastMarkers) {
    const advice = markers.length === 0 ? "showCard" : "showAllMarkers";
    return { markers, tiltDeg: null, distanceMm: null, blurMm: null, advice };
  }
  const corners = cornersOf(markers, { x: 1, y: 1 });
  const view = fitView(corners, startFrom(corners, [(frame.width - 1) / 2, (frame.height - 1) / 2]), {
    lens: false,
    bend: false,
  });
  const { tiltDeg, distanceMm, pxPerMm } = poseOf(view);
  const spreads = markers.map(({ edgeSpreadPx }) => edgeSpreadPx).sort((a, b) => a - b);
  const blurMm = spreads[spreads.length >> 1]! / pxPerMm;
  const cardShare = (card.sideMm * pxPerMm) / Math.min(frame.width, frame.height);
  const advice =
    tiltDeg > spare * protocol.photoMostTiltDeg
      ? "tiltLess"
      : cardShare < leastCardShare
        ? "goNearer"
        : blurMm > frameBlurAllowance * protocol.photoMostBlurMm
          ? "holdSteadier"
          : markers.length < allMarkers
            ? "showAllMarkers"
            : "hold";
  return { markers, tiltDeg, distanceMm, blurMm, advice };
}

/** Share of the frame's shorter side that the card should take up. */
const leastCardShare = 0.35;
