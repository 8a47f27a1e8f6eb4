import { type RefObject, useLayoutEffect, useState } from "react";

/** The width of an element and the reader's text size, in px; 0 before the first layout. */
export function usePlateSize(element: RefObject<HTMLElement | null>): { widthPx: number; rootPx: number } {
  const [size, setSize] = useState({ widthPx: 0, rootPx: 16 });
  useLayoutEffect(() => {
    const own = element.current;
    if (!own) return;
    const measure = () => {
      const rootPx = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
      setSize({ widthPx: Math.floor(own.clientWidth), rootPx });
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(own);
    observer.observe(document.documentElement);
    return () => observer.disconnect();
  }, [element]);
  return size;
}
