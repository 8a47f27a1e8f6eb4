import { useEffect, useRef, useState } from "react";
import { Button, Dialog, ErrorNote } from "../../../shared/ui/index.ts";
import type { PhotoReader, Seen } from "./usePhoto.ts";
import { adviceWords } from "./words.ts";
import "./photo.css";

/** The live frame is looked at in this size; the photograph itself is taken as large as the camera gives it. */
const lookedAtPx = 640;
const betweenLooksMs = 150;

/** The camera with what it sees drawn over it: the markers found, and the one thing to do next. */
export function CameraDialog({
  look,
  onTaken,
  onClose,
}: {
  look: PhotoReader["look"];
  onTaken: (picture: Blob) => void;
  onClose: () => void;
}) {
  const video = useRef<HTMLVideoElement>(null);
  const [refused, setRefused] = useState(false);
  const [seen, setSeen] = useState<Seen | null>(null);
  const [taking, setTaking] = useState(false);
  useCamera(video, () => setRefused(true));
  useLooks(video, look, setSeen);

  const take = async () => {
    const shown = video.current;
    if (!shown || shown.videoWidth === 0) return;
    setTaking(true);
    const picture = await still(shown);
    setTaking(false);
    if (picture) onTaken(picture);
  };

  return (
    <Dialog title="Photograph with the frame card" onClose={onClose}>
      {refused ? (
        <ErrorNote>
          The camera cannot be used here: it was refused, is in use elsewhere, or this address is not https.
          Take the photograph with the phone’s own camera and choose it as a file.
        </ErrorNote>
      ) : (
        <>
          <div className="fit-camera">
            <video ref={video} autoPlay playsInline muted aria-label="What the camera sees" />
            {seen && <Markers seen={seen} />}
          </div>
          <p className="fit-advice" role="status">
            {seen ? adviceWords[seen.live.advice] : "Waiting for the camera."}
          </p>
          <p className="formend">
            <Button first={seen?.live.advice === "hold"} busy={taking} onClick={() => void take()}>
              Take the photograph
            </Button>
            <Button onClick={onClose}>Not now</Button>
          </p>
        </>
      )}
    </Dialog>
  );
}

function Markers({ seen: { live, widthPx, heightPx } }: { seen: Seen }) {
  return (
    <svg viewBox={`0 0 ${widthPx} ${heightPx}`} aria-hidden="true">
      {live.markers.map(({ id, corners }) => (
        <polygon key={id} points={corners.map(([x, y]) => `${x},${y}`).join(" ")} />
      ))}
    </svg>
  );
}

/** Starts the camera at the back of the device, and lets go of it at the end. */
function useCamera(video: React.RefObject<HTMLVideoElement | null>, onRefused: () => void): void {
  const refused = useRef(onRefused);
  refused.current = onRefused;
  useEffect(() => {
    let stream: MediaStream | null = null;
    let over = false;
    const end = () => {
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
    const start = async () => {
      try {
        stream = await navigator.mediaDevices.getUserMedia({
          video: { facingMode: "environment", width: { ideal: 4096 }, height: { ideal: 3072 } },
        });
        if (over) return end();
        if (video.current) video.current.srcObject = stream;
      } catch {
        if (!over) refused.current();
      }
    };
    void start();
    return () => {
      over = true;
      end();
    };
  }, [video]);
}

/** Sends a frame now and then to be looked at. */
function useLooks(
  video: React.RefObject<HTMLVideoElement | null>,
  look: PhotoReader["look"],
  onSeen: (seen: Seen) => void,
): void {
  const ask = useRef(look);
  ask.current = look;
  useEffect(() => {
    const canvas = document.createElement("canvas");
    const timer = setInterval(() => {
      const shown = video.current;
      if (!shown || shown.videoWidth === 0) return;
      const scale = Math.min(1, lookedAtPx / Math.max(shown.videoWidth, shown.videoHeight));
      canvas.width = Math.round(shown.videoWidth * scale);
      canvas.height = Math.round(shown.videoHeight * scale);
      const context = canvas.getContext("2d", { willReadFrequently: true });
      if (!context) return;
      context.drawImage(shown, 0, 0, canvas.width, canvas.height);
      ask.current(context.getImageData(0, 0, canvas.width, canvas.height), onSeen);
    }, betweenLooksMs);
    return () => clearInterval(timer);
  }, [video, onSeen]);
}

/** The frame as it stands, as large as the camera gives it. */
async function still(video: HTMLVideoElement): Promise<Blob | null> {
  const canvas = document.createElement("canvas");
  canvas.width = video.videoWidth;
  canvas.height = video.videoHeight;
  canvas.getContext("2d")?.drawImage(video, 0, 0);
  return new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", 0.95));
}
