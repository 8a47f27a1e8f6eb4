import type { Drawing } from "./drawing.ts";

/** Draws inside one tagged element, as H1, H2, P or Lbl: what a screen reader reads in this order. */
export function tagged(drawing: Drawing, type: string, draw: () => void): void {
  const element = drawing.pdf.struct(type);
  drawing.parent.add(element);
  element.add(draw);
  element.end();
}

/** Adds a tagged element that holds others, as L or LI. */
export function grouped(drawing: Drawing, type: string, draw: () => void): void {
  const element = drawing.pdf.struct(type);
  const outer = drawing.parent;
  outer.add(element);
  drawing.parent = element;
  draw();
  drawing.parent = outer;
  element.end();
}

/** A picture with the sentence that stands for it. */
export function figure(drawing: Drawing, alt: string, draw: () => void): void {
  const element = drawing.pdf.struct("Figure", { alt });
  drawing.parent.add(element);
  element.add(draw);
  element.end();
}

/** Rules and other marks without meaning, which a screen reader skips. */
export function artifact(drawing: Drawing, draw: () => void): void {
  drawing.pdf.markContent("Artifact", { type: "Layout" });
  draw();
  drawing.pdf.endMarkedContent();
}
