import { useCallback, useEffect, useRef, useState } from "react";
import type { LiveFrame, PhotoMeasurement, Stage } from "../../../../domain/photo/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { Above, Known, PhotoAnswer, PhotoQuestion } from "./photo.worker.ts";

/** A photograph that was read, whether a size came of it or not. */
export interface ReadPhoto {
  measurement: PhotoMeasurement;
  above: Above | null;
  /** The pixels alone, small enough to be kept. */
  picture: Blob;
}

export interface Seen {
  live: LiveFrame;
  widthPx: number;
  heightPx: number;
}

export interface PhotoReader {
  /** The stage it is at; null while nothing is being read. */
  stage: Stage["name"] | "decode" | null;
  /** The last photograph; gone when the page is loaded anew. */
  read: ReadPhoto | null;
  /** The file could not be decoded. */
  unreadable: boolean;
  measure: (picture: Blob, known: Known) => void;
  /** The same photograph with other knowledge of card or height. */
  measureAgain: (known: Known) => void;
  cancel: () => void;
  forget: () => void;
  /** What one frame of the camera shows. Frames that come faster than they are answered are left out. */
  look: (frame: ImageData, seen: (seen: Seen) => void) => void;
}

/** Reads photographs in a worker of its own. The worker starts with the first of them. */
export function usePhoto(protocol: Protocol, onRead: (read: ReadPhoto) => void): PhotoReader {
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  const looking = useRef<((seen: Seen) => void) | null>(null);
  const told = useRef(onRead);
  told.current = onRead;
  const [stage, setStage] = useState<PhotoReader["stage"]>(null);
  const [read, setRead] = useState<ReadPhoto | null>(null);
  const [unreadable, setUnreadable] = useState(false);

  const stop = useCallback(() => {
    worker.current?.terminate();
    worker.current = null;
    looking.current = null;
  }, []);
  useEffect(() => stop, [stop]);

  const started = () => {
    if (worker.current) return worker.current;
    const own = new Worker(new URL("./photo.worker.ts", import.meta.url), { type: "module" });
    own.onmessage = ({ data }: MessageEvent<PhotoAnswer>) => {
      if (data.said === "seen") {
        looking.current?.(data);
        looking.current = null;
        return;
      }
      if (data.number !== number.current) return;
      if (data.said === "stage") return setStage(data.stage);
      setStage(null);
      if (data.said === "unreadable") return setUnreadable(true);
      setRead(data);
      told.current(data);
    };
    worker.current = own;
    return own;
  };
  const ask = (question: Omit<Extract<PhotoQuestion, { ask: "measure" }>, "ask" | "number" | "protocol">) => {
    number.current += 1;
    setUnreadable(false);
    setStage("decode");
    started().postMessage({
      ask: "measure",
      number: number.current,
      protocol,
      ...question,
    } satisfies PhotoQuestion);
  };

  return {
    stage,
    read,
    unreadable,
    measure(picture, known) {
      setRead(null);
      ask({ picture, known });
    },
    measureAgain: (known) => ask({ known }),
    cancel() {
      stop();
      setStage(null);
    },
    forget() {
      stop();
      setStage(null);
      setRead(null);
      setUnreadable(false);
    },
    look(frame, seen) {
      if (looking.current) return;
      looking.current = seen;
      started().postMessage({ ask: "look", number: 0, frame, protocol } satisfies PhotoQuestion, [
        frame.data.buffer,
      ]);
    },
  };
}
