import { Choice, NumberField } from "../../../shared/ui/index.ts";
import { type FittingAction, type FittingState, sizeWrong, stepWrong } from "../state/index.ts";
import { TiltField } from "./TiltField.tsx";

interface PartProps {
  state: FittingState;
  dispatch: (action: FittingAction) => void;
  /** Saving was tried: blank figures are asked for. */
  tried: boolean;
}

const shapes = [
  { value: "round", label: "Round" },
  { value: "oval", label: "Oval" },
] as const;

/** The smallest ring that clears the base; for an oval, the two sizes that do. */
export function GuidePart({ state, dispatch, tried }: PartProps) {
  const { guide } = state.shape;
  const put = (fields: Partial<typeof guide>) => dispatch({ type: "guide", fields });
  return (
    <>
      <Choice label="Shape" value={guide.shape} onChange={(shape) => put({ shape })} choices={shapes} />
      <div className="fit-fields">
        {guide.shape === "round" ? (
          <Size
            label="Ring that clears"
            value={guide.diameterMm}
            onChange={(diameterMm) => put({ diameterMm })}
            tried={tried}
          />
        ) : (
          <LengthAndWidth value={guide} put={put} tried={tried} />
        )}
        <NumberField
          label="Step between rings"
          unit="mm"
          value={guide.stepMm}
          onChange={(stepMm) => put({ stepMm })}
          error={stepWrong(state.shape)}
        />
      </div>
      {guide.shape === "oval" && <TiltField value={guide.tiltDeg} onChange={(tiltDeg) => put({ tiltDeg })} />}
      <p className="note">
        The smallest ring that clears the base all round, with no bite. The size lies up to one step under it;
        the opening is cut from the ring.
      </p>
    </>
  );
}

/** A ruler laid across the base. */
export function RulerPart({ state, dispatch, tried }: PartProps) {
  const { ruler } = state.shape;
  const put = (fields: Partial<typeof ruler>) => dispatch({ type: "ruler", fields });
  return (
    <>
      <div className="fit-fields">
        <LengthAndWidth value={ruler} put={put} tried={tried} />
      </div>
      <TiltField value={ruler.tiltDeg} onChange={(tiltDeg) => put({ tiltDeg })} />
    </>
  );
}

function LengthAndWidth({
  value,
  put,
  tried,
}: {
  value: { lengthMm: string; widthMm: string };
  put: (fields: { lengthMm?: string; widthMm?: string }) => void;
  tried: boolean;
}) {
  return (
    <>
      <Size
        label="Length, head to foot"
        value={value.lengthMm}
        onChange={(lengthMm) => put({ lengthMm })}
        tried={tried}
      />
      <Size
        label="Width, side to side"
        value={value.widthMm}
        onChange={(widthMm) => put({ widthMm })}
        tried={tried}
      />
    </>
  );
}

function Size({
  label,
  value,
  onChange,
  tried,
}: {
  label: string;
  value: string;
  onChange: (value: string) => void;
  tried: boolean;
}) {
  const blank = tried && value.trim() === "" ? "Write the figure." : undefined;
  return (
    <NumberField
      label={label}
      unit="mm"
      value={value}
      onChange={onChange}
      error={sizeWrong(value) ?? blank}
    />
  );
}
