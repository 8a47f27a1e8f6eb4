import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** The room a drawing has, at its real pixel size. */
export interface Drawing<E extends HTMLElement> {
  ref: RefObject<E | null>;
  /** px; 0 before it was measured. */
  width: number;
  /** How much larger than usual the reader's text is: sizes in a drawing are multiplied by it. */
  text: number;
}

/** Measures the element that holds a drawing, again whenever it changes its size. */
export function useDrawing<E extends HTMLElement>(): Drawing<E> {
  const ref = useRef<E>(null);
  const [room, setRoom] = useState({ width: 0, text: 1 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = () => {
      const width = Math.floor(element.clientWidth);
      const text = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
      setRoom((now) => (now.width === width && now.text === text ? now : { width, text }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return { ref, ...room };
}
