import { useEffect, useState } from "react";
import { centroidMm, type Point } from "../../../domain/outline/index.ts";
import {
  drawnLoop,
  readTracing,
  type TracingFile,
  tracedOutline,
  UnreadableTracing,
  withoutLongEdges,
} from "../../../record/tracing/index.ts";
import { type FittingAction, newScan, newTraced, type Scan, type Traced } from "./state/index.ts";
import type { Tool } from "./ways/index.ts";

/** A line drawn smaller than this was a slip of the pen. */
const leastAcrossMm = 5;
/** Edges of a drawn line are parted to this, so that a handle bends it smoothly. */
const edgeMm = 0.5;
/** A fresh scan fills the plate about so wide. */
const scanAcrossMm = 80;

/** What the pointer does on the plate, and what lies under the grid. */
export interface PlateTool {
  tool: Tool;
  setTool: (tool: Tool) => void;
  scan: Scan | null;
  setScan: (scan: Scan | null) => void;
  /** What became of the last line or file, as a sentence. */
  said: string | null;
  /** A file that was read and waits for a choice. */
  file: TracingFile | null;
  takeLine: (line: readonly Point[]) => void;
  takeFile: (file: File) => Promise<void>;
  takeScan: (file: File) => Promise<void>;
  takeTraced: (traced: Traced) => void;
  leaveFile: () => void;
}

export function usePlateTool(dispatch: (action: FittingAction) => void): PlateTool {
  const [tool, setTool] = useState<Tool>("handles");
  const [scan, setScan] = useState<Scan | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [file, setFile] = useState<TracingFile | null>(null);
  const url = scan?.url;
  useEffect(() => {
    if (url) return () => URL.revokeObjectURL(url);
  }, [url]);

  const takeLine = (line: readonly Point[]) => {
    const drawn = tracedOutline("The line", drawnLoop(line));
    if (!drawn || Math.max(drawn.lengthMm, drawn.widthMm) < leastAcrossMm) {
      return setSaid("The line encloses next to nothing. Draw once round the base without lifting.");
    }
    if (drawn.problem) return setSaid(drawn.problem.text);
    setSaid(null);
    setTool("handles");
    const source = scan ? scanWords(scan) : "Drawn on the screen";
    const traced = newTraced(withoutLongEdges(drawn.outline, edgeMm), source, drawn.joinedMm);
    dispatch({ type: "traced", traced: { ...traced, smoothing: "little" } });
    // The outline is laid with its centre on the plate's; the scan goes with it.
    const [x, y] = centroidMm(drawn.outline);
    setScan((now) => now && { ...now, middleMm: [now.middleMm[0] - x, now.middleMm[1] - y] });
  };

  return {
    tool,
    setTool,
    scan,
    setScan(next) {
      setScan(next);
      if (!next) setTool("handles");
    },
    said,
    file,
    takeLine,
    async takeFile(chosen) {
      try {
        setFile(readTracing(new Uint8Array(await chosen.arrayBuffer())));
        setSaid(null);
      } catch (problem) {
        if (!(problem instanceof UnreadableTracing)) throw problem;
        setSaid(problem.message);
      }
    },
    async takeScan(chosen) {
      const next = await pictureOf(chosen);
      setSaid(next ? null : "This picture cannot be shown here. Save it as PNG or JPEG.");
      if (!next) return;
      setScan(next);
      setTool("marks");
    },
    takeTraced(traced) {
      setFile(null);
      setTool("handles");
      setScan(null);
      dispatch({ type: "traced", traced });
    },
    leaveFile: () => setFile(null),
  };
}

/** The record says how it was placed to scale, and nothing of the file's name, which may name a person. */
function scanWords({ apartMm, mirrored }: Scan): string {
  const seen = mirrored ? ", seen from the skin side" : "";
  return `Traced over a scan, to scale by ${apartMm} mm between two marks${seen}`;
}

async function pictureOf(file: File): Promise<Scan | null> {
  const url = URL.createObjectURL(file);
  const picture = new Image();
  picture.src = url;
  try {
    await picture.decode();
  } catch {
    URL.revokeObjectURL(url);
    return null;
  }
  return newScan(url, picture.naturalWidth, picture.naturalHeight, scanAcrossMm);
}
