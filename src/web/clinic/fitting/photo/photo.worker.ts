import {
  type CardScale,
  type LiveFrame,
  liveFrame,
  measurePhoto,
  type PaperLight,
  type PhotoMeasurement,
  type Pixels,
  type Stage,
  seenFromAbove,
  type View,
} from "../../../../domain/photo/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";

/** What is known beside the picture. */
export interface Known {
  cardScale?: CardScale;
  heightMm?: number;
}

export type PhotoQuestion =
  /** Without a picture: the one before, with other knowledge. */
  | { ask: "measure"; number: number; picture?: Blob; known: Known; protocol: Protocol }
  | { ask: "look"; number: number; frame: ImageData; protocol: Protocol };

export type PhotoAnswer =
  | { said: "stage"; number: number; stage: Stage["name"] }
  | { said: "measured"; number: number; measurement: PhotoMeasurement; above: Above | null; picture: Blob }
  | { said: "seen"; number: number; live: LiveFrame; widthPx: number; heightPx: number }
  | { said: "unreadable"; number: number };

/** The card and the skin in it from straight above, head side up, to lay under the outline. */
export interface Above {
  picture: Blob;
  sidePx: number;
  pxPerMm: number;
}

const halfMm = 44;
const pxPerMm = 8;
/** As the bench keeps a picture: large enough to look at again, small enough to send. */
const sentLongestPx = 1600;
const quality = 0.9;

let held: { pixels: Pixels; picture: Blob } | null = null;

// Decoding and measuring take most of a second: all of it off the page's own thread.
self.onmessage = async ({ data }: MessageEvent<PhotoQuestion>) => {
  if (data.ask === "look") {
    const { width, height } = data.frame;
    const live = liveFrame(data.frame, data.protocol);
    return say({ said: "seen", number: data.number, live, widthPx: width, heightPx: height });
  }
  const { number, picture, known, protocol } = data;
  if (picture) held = await decoded(picture);
  if (!held) return say({ said: "unreadable", number });
  let seen: { view: View; paper: PaperLight } | null = null;
  let placed: View | null = null;
  let looked: Pixels = held.pixels;
  const measurement = measurePhoto(held.pixels, {
    ...known,
    protocol,
    onStage: (stage) => {
      if (stage.name === "markers") looked = stage.picture;
      if (stage.name === "card") placed = stage.placed.view;
      if (stage.name === "patch" && placed) seen = { view: placed, paper: stage.paper };
      say({ said: "stage", number, stage: stage.name });
    },
  });
  const above = seen && (await asAbove(looked, seen));
  say({ said: "measured", number, measurement, above, picture: held.picture });
};

function say(answer: PhotoAnswer): void {
  self.postMessage(answer);
}

/** The pixels as they were meant to be seen, and a copy for the record that says nothing but them. */
async function decoded(picture: Blob): Promise<typeof held> {
  try {
    const bitmap = await createImageBitmap(picture, { imageOrientation: "from-image" });
    const { width, height } = bitmap;
    const canvas = new OffscreenCanvas(width, height);
    const context = canvas.getContext("2d", { willReadFrequently: true })!;
    context.drawImage(bitmap, 0, 0);
    const pixels = context.getImageData(0, 0, width, height);
    const scale = Math.min(1, sentLongestPx / Math.max(width, height));
    const small = new OffscreenCanvas(Math.round(width * scale), Math.round(height * scale));
    small.getContext("2d")!.drawImage(bitmap, 0, 0, small.width, small.height);
    bitmap.close();
    return { pixels, picture: await small.convertToBlob({ type: "image/jpeg", quality }) };
  } catch {
    return null;
  }
}

async function asAbove(pixels: Pixels, { view, paper }: { view: View; paper: PaperLight }): Promise<Above> {
  const { width, height, data } = seenFromAbove(pixels, view, paper, { halfMm, pxPerMm });
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext("2d")!.putImageData(new ImageData(Uint8ClampedArray.from(data), width, height), 0, 0);
  return { picture: await canvas.convertToBlob({ type: "image/jpeg", quality }), sidePx: width, pxPerMm };
}
