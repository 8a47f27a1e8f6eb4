import { useEffect, useMemo } from "react";
import { centroidMm } from "../../../../domain/outline/index.ts";
import type { RecordedShape } from "../../../../record/entry/index.ts";
import type { StomaStory } from "../../../../record/story/index.ts";
import { RecordDialog } from "../../person/writing/RecordDialog.tsx";
import { skinRecording } from "../../person/writing/recordings.ts";
import { type SkinPicture, SkinPictureContext } from "../../skin/index.ts";
import type { ReadPhoto } from "./usePhoto.ts";

/** What is seen on the skin, marked over the photograph that has just been read. */
export function SkinDialog({
  read,
  about,
  personId,
  stoma,
  onClose,
  onSaved,
}: {
  read: ReadPhoto;
  /** The base as it lies on the plate, with its centre in the middle. */
  about: RecordedShape;
  personId: string;
  stoma: StomaStory;
  onClose: () => void;
  onSaved: (words: string) => void;
}) {
  const picture = useSkinPictureOf(read);
  return (
    <SkinPictureContext value={picture}>
      <RecordDialog recording={skinRecording(personId, stoma, about)} onClose={onClose} onSaved={onSaved} />
    </SkinPictureContext>
  );
}

function useSkinPictureOf({ above, measurement }: ReadPhoto): SkinPicture | null {
  const url = useMemo(() => above && URL.createObjectURL(above.picture), [above]);
  useEffect(() => {
    if (url) return () => URL.revokeObjectURL(url);
  }, [url]);
  if (!above || !url || !measurement.outline) return null;
  const [x, y] = centroidMm(measurement.outline);
  return { url, sidePx: above.sidePx, mmPerPx: 1 / above.pxPerMm, middleMm: [-x, -y] };
}
