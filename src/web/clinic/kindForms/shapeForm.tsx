import type { RecordedShape } from "../../../record/entry/index.ts";
import { Choice, NumberField } from "../../shared/ui/index.ts";
import { type FieldsProps, type reading, typed } from "./kindForm.ts";

/** A shape in a correction: a guide's sizes may be typed anew; an outline stays as it was drawn. */
export interface ShapeForm {
  shape: "round" | "oval" | "outline";
  diameterMm: string;
  lengthMm: string;
  widthMm: string;
  tiltDeg: string;
  outline: [number, number][] | null;
}

export const blankShape: ShapeForm = {
  shape: "oval",
  diameterMm: "",
  lengthMm: "",
  widthMm: "",
  tiltDeg: "0",
  outline: null,
};

export function fillShape(shape: RecordedShape): ShapeForm {
  if ("outline" in shape) return { ...blankShape, shape: "outline", outline: shape.outline };
  const { guide } = shape;
  if (guide.shape === "round") return { ...blankShape, shape: "round", diameterMm: typed(guide.diameterMm) };
  return {
    ...blankShape,
    lengthMm: typed(guide.lengthMm),
    widthMm: typed(guide.widthMm),
    tiltDeg: typed(guide.tiltDeg),
  };
}

export function readShape(form: ShapeForm, from: ReturnType<typeof reading>): RecordedShape {
  if (form.shape === "outline" && form.outline) return { outline: form.outline };
  if (form.shape === "round") {
    return { guide: { shape: "round", diameterMm: from.neededNumber("diameterMm", form.diameterMm) } };
  }
  return {
    guide: {
      shape: "oval",
      lengthMm: from.neededNumber("lengthMm", form.lengthMm),
      widthMm: from.neededNumber("widthMm", form.widthMm),
      tiltDeg: from.number("tiltDeg", form.tiltDeg) ?? 0,
    },
  };
}

const shapes = [
  { value: "round", label: "Round" },
  { value: "oval", label: "Oval" },
] as const;

export function ShapeFields({ form, put, wrong }: FieldsProps<ShapeForm>) {
  if (form.shape === "outline") {
    return (
      <p className="note">
        The outline of {form.outline?.length ?? 0} points stays as it was drawn. To draw it anew, take this
        entry back and measure again in the fitting.
      </p>
    );
  }
  return (
    <>
      <Choice label="Shape" value={form.shape} onChange={(shape) => put({ shape })} choices={shapes} />
      <div className="fields">
        {form.shape === "round" ? (
          <NumberField
            label="Across"
            unit="mm"
            value={form.diameterMm}
            onChange={(diameterMm) => put({ diameterMm })}
            error={wrong.diameterMm}
          />
        ) : (
          <>
            <NumberField
              label="Length, head to foot"
              unit="mm"
              value={form.lengthMm}
              onChange={(lengthMm) => put({ lengthMm })}
              error={wrong.lengthMm}
            />
            <NumberField
              label="Width, side to side"
              unit="mm"
              value={form.widthMm}
              onChange={(widthMm) => put({ widthMm })}
              error={wrong.widthMm}
            />
            <NumberField
              label="Tilt, head end to the person’s left"
              unit="°"
              value={form.tiltDeg}
              onChange={(tiltDeg) => put({ tiltDeg })}
              error={wrong.tiltDeg}
            />
          </>
        )}
      </div>
    </>
  );
}
