import { type ReactNode, useState } from "react";
import { newId } from "../../../shared/api/index.ts";
import { Button, Check } from "../../../shared/ui/index.ts";
import type { FittingAction, FittingState } from "../state/index.ts";
import { FileButton } from "../ways/FileButton.tsx";
import { CameraDialog } from "./CameraDialog.tsx";
import { CardScalePart } from "./CardScalePart.tsx";
import type { PhotoWay } from "./usePhotoWay.ts";
import { sizeWords, stageWords } from "./words.ts";
import "./photo.css";

interface PhotoPartProps {
  state: FittingState;
  dispatch: (action: FittingAction) => void;
  photo: PhotoWay;
  /** The person agreed that photographs are kept; null: nobody has asked. */
  mayKeep: boolean | null;
  tolerancePercent: number;
  /** Opens what is seen on the skin, over this picture. */
  onSkin: () => void;
}

/** A photograph with the frame card: taken or chosen, read, and laid under the plate to be checked. */
export function PhotoPart({ state, dispatch, photo, mayKeep, tolerancePercent, onSkin }: PhotoPartProps) {
  const { reader, take } = photo;
  const [aiming, setAiming] = useState(false);
  const [over, setOver] = useState(false);
  const { stage } = reader;
  return (
    <>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset would box the buttons a second time */}
      <div
        role="group"
        aria-label="The photograph: choose it, take it, or drop it here"
        className={over ? "fit-drop over" : "fit-drop"}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={(event) => {
          event.preventDefault();
          setOver(false);
          const file = event.dataTransfer.files[0];
          if (file) take(file);
        }}
      >
        <div className="fit-tools">
          <FileButton
            label={state.shape.photo ? "Choose another photograph" : "Choose a photograph"}
            accept="image/*"
            onFile={take}
          />
          <Button onClick={() => setAiming(true)}>Use the camera</Button>
        </div>
        <p className="note">
          Frame card flat on the skin round the stoma, arrow to the head, all eight markers in the picture.
          The picture is read on this device and goes nowhere by itself.
        </p>
      </div>
      {stage && (
        <p className="small" role="status">
          {stageWords[stage]}… <Button onClick={reader.cancel}>Stop</Button>
        </p>
      )}
      <Said
        {...{ state, photo }}
        picture={
          <Check label="Show the picture under the line" checked={photo.shown} onChange={photo.show} />
        }
      />
      <CardScalePart
        scale={photo.cardScale}
        onScale={photo.setCardScale}
        tolerancePercent={tolerancePercent}
      />
      {state.shape.photo && reader.read && (
        <>
          <KeepPart photoId={state.shape.photo.photoId} mayKeep={mayKeep} dispatch={dispatch} />
          <p>
            <Button onClick={onSkin}>Mark the skin on this picture</Button>
          </p>
        </>
      )}
      {aiming && (
        <CameraDialog
          look={reader.look}
          onTaken={(picture) => {
            setAiming(false);
            take(picture);
          }}
          onClose={() => setAiming(false)}
        />
      )}
    </>
  );
}

/** What came of it: a size to check, or what to do differently. */
function Said({
  state,
  photo: { reader },
  picture,
}: Pick<PhotoPartProps, "state" | "photo"> & { picture: ReactNode }) {
  if (reader.stage) return null;
  if (reader.unreadable) {
    return (
      <p className="wrong" role="alert">
        This picture cannot be opened here. Save it as JPEG, PNG or WebP.
      </p>
    );
  }
  const measurement = reader.read?.measurement;
  if (measurement && !measurement.usable) {
    return (
      <div role="alert">
        <p className="wrong">
          <b>No size from this photograph.</b>
        </p>
        <ul className="fit-reasons">
          {measurement.reasons.map(({ code, text }) => (
            <li key={code}>{text}</li>
          ))}
        </ul>
      </div>
    );
  }
  if (!state.shape.photo) return null;
  return (
    <div role="status">
      {measurement && <p className="small">{sizeWords(measurement)}</p>}
      {measurement?.notes.map(({ code, text }) => (
        <p className="note" key={code}>
          {text}
        </p>
      ))}
      {picture}
      <p className="note">
        {reader.read
          ? "Check the line against the picture all round, and move it by its handles where it is off."
          : "The picture itself was let go of when this page was loaded anew; the line is still here."}
      </p>
    </div>
  );
}

/** Whether the picture itself is kept. It is not unless the person agreed and somebody chooses so. */
function KeepPart({
  photoId,
  mayKeep,
  dispatch,
}: {
  photoId: string | null;
  mayKeep: boolean | null;
  dispatch: (action: FittingAction) => void;
}) {
  if (!mayKeep) {
    return (
      <p className="note">
        {mayKeep === null
          ? "Nobody has asked the person yet whether photographs may be kept: only the line is saved. Their answer is recorded on their page."
          : "The person does not want photographs kept: only the line is saved."}
      </p>
    );
  }
  return (
    <Check
      label="Keep the picture in the record, encrypted, to compare with later ones"
      checked={photoId !== null}
      onChange={(keep) => dispatch({ type: "keepPhoto", photoId: keep ? newId() : null })}
    />
  );
}
