import { useState } from "react";

/** Measured length over nominal length of a printed bar, across and upright the page. */
export interface PrintScale {
  x: number;
  y: number;
}

/** How true the printer used with this browser prints; null until somebody measured its bars. */
export function usePrintScale() {
  return useKeptScale("roundel.printer");
}

/** How true the batch of frame cards now in use was printed; null until somebody measured its bars. */
export function useCardScale() {
  return useKeptScale("roundel.frameCards");
}

function useKeptScale(place: string): [PrintScale | null, (scale: PrintScale | null) => void] {
  const [scale, setScale] = useState(() => read(place));
  const save = (next: PrintScale | null) => {
    if (next) localStorage.setItem(place, JSON.stringify(next));
    else localStorage.removeItem(place);
    setScale(next);
  };
  return [scale, save];
}

function read(place: string): PrintScale | null {
  try {
    const kept = JSON.parse(localStorage.getItem(place) ?? "null") as PrintScale | null;
    return kept && kept.x > 0 && kept.y > 0 ? kept : null;
  } catch {
    return null;
  }
}
