import { useEffect } from "react";
import { centroidMm, moved } from "../../../../domain/outline/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import { ask } from "../../../shared/api/index.ts";
import { type PrintScale, useCardScale } from "../../../shared/printer/index.ts";
import { readDecimal } from "../../../shared/words/index.ts";
import type { FittingAction, FittingState, Scan } from "../state/index.ts";
import type { PlateTool } from "../usePlateTool.ts";
import type { Known } from "./photo.worker.ts";
import { type PhotoReader, type ReadPhoto, usePhoto } from "./usePhoto.ts";

/** The photograph on the page, and what it has to do with the plate. */
export interface PhotoWay {
  reader: PhotoReader;
  cardScale: PrintScale | null;
  setCardScale: (scale: PrintScale | null) => void;
  take: (picture: Blob) => void;
  /** Whether the picture lies under the plate. */
  shown: boolean;
  show: (shown: boolean) => void;
  /** Sends the picture to be kept, where it is to be. Sending it twice is harmless. */
  keep: () => Promise<void>;
}

/** Reads a photograph into the form, and lays it under the plate. */
export function usePhotoWay({
  state,
  dispatch,
  tool,
  protocol,
  personId,
  stomaId,
}: {
  state: FittingState;
  dispatch: (action: FittingAction) => void;
  tool: PlateTool;
  protocol: Protocol;
  personId: string;
  stomaId: string;
}): PhotoWay {
  const [cardScale, setCardScale] = useCardScale();
  const heightMm = readDecimal(state.details.heightMm);
  const known: Known = {
    ...(cardScale ? { cardScale } : {}),
    ...(heightMm !== null && heightMm >= 0 ? { heightMm } : {}),
  };

  const onRead = ({ measurement, above }: ReadPhoto) => {
    const { outline, uncertaintyMm, tiltDeg, markersFound } = measurement;
    if (!measurement.usable || !outline || uncertaintyMm === null) {
      dispatch({ type: "photo", photo: null });
      tool.setScan(null);
      return;
    }
    const [x, y] = centroidMm(outline);
    const photoId = state.shape.photo?.photoId ?? null;
    const read = { uncertaintyMm, cardScale, tiltDeg: tiltDeg ?? 0, markersFound, photoId };
    dispatch({ type: "photo", photo: { outline: moved(outline, [-x, -y]), ...read } });
    if (above) tool.setScan(scanOf(above, [-x, -y]));
  };
  const reader = usePhoto(protocol, onRead);

  // What is told of card or height afterwards changes the size: the same picture is read again.
  const knownKey = JSON.stringify(known);
  const { measureAgain } = reader;
  const hasRead = reader.read !== null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: only what is known counts, not the functions' identity
  useEffect(() => {
    if (!hasRead) return;
    const timer = setTimeout(() => measureAgain(known), restMs);
    return () => clearTimeout(timer);
  }, [knownKey]);

  return {
    reader,
    cardScale,
    setCardScale,
    take: (picture) => reader.measure(picture, known),
    shown: tool.scan !== null,
    show(shown) {
      const { above, measurement } = reader.read ?? {};
      if (!shown || !above || !measurement?.outline) return tool.setScan(null);
      const [x, y] = centroidMm(measurement.outline);
      tool.setScan(scanOf(above, [-x, -y]));
    },
    async keep() {
      const photoId = state.shape.photo?.photoId;
      const picture = reader.read?.picture;
      if (state.shape.way !== "photo" || !photoId || !picture) return;
      const form = new FormData();
      form.append("file", picture, "photograph.jpg");
      await ask(`/people/${personId}/stomas/${stomaId}/photos/${photoId}`, { method: "PUT", body: form });
    },
  };
}

/** Long enough that a burst of typing reads once. */
const restMs = 400;

function scanOf(above: NonNullable<ReadPhoto["above"]>, middleMm: readonly [number, number]): Scan {
  const half = above.sidePx / 2;
  return {
    url: URL.createObjectURL(above.picture),
    widthPx: above.sidePx,
    heightPx: above.sidePx,
    mmPerPx: 1 / above.pxPerMm,
    toScale: true,
    marks: [
      [-half, 0],
      [half, 0],
    ],
    apartMm: String(above.sidePx / above.pxPerMm),
    turnDeg: 0,
    mirrored: false,
    middleMm: [...middleMm],
  };
}
