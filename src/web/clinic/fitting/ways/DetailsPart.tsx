import type { ReactNode } from "react";
import { postures } from "../../../../record/entry/index.ts";
import { Choice, NumberField, Select, TextField } from "../../../shared/ui/index.ts";
import { WhenFields, whenNow } from "../../kindForms/index.ts";
import { type FittingAction, type FittingState, heightWrong } from "../state/index.ts";

const postureWords: Record<(typeof postures)[number], string> = {
  lying: "Lying",
  sitting: "Sitting",
  standing: "Standing",
  bending: "Bending",
};

const postureChoices = [
  { value: "" as const, label: "Not noted" },
  ...postures.map((value) => ({ value, label: postureWords[value] })),
];

const times = [
  { value: "now", label: "Now" },
  { value: "earlier", label: "Earlier" },
] as const;

/** Height, posture, when and a note: what is written down with every reading. */
export function DetailsPart({
  state: { details },
  dispatch,
  zone,
  whenWrong,
  children,
}: {
  state: FittingState;
  dispatch: (action: FittingAction) => void;
  zone: string;
  whenWrong?: string;
  /** A field that stands beside height and posture. */
  children?: ReactNode;
}) {
  const put = (fields: Partial<typeof details>) => dispatch({ type: "details", fields });
  return (
    <>
      <div className="fit-fields">
        <NumberField
          label="Height, lowest side"
          unit="mm"
          value={details.heightMm}
          onChange={(heightMm) => put({ heightMm })}
          error={heightWrong(details)}
        />
        <Select
          label="Posture"
          value={details.posture}
          onChange={(posture) => put({ posture })}
          choices={postureChoices}
        />
        {children}
      </div>
      <div className="fit-when">
        <Choice
          label="Measured"
          value={details.when ? "earlier" : "now"}
          onChange={(time) => put({ when: time === "now" ? null : whenNow(zone) })}
          choices={times}
        />
        {details.when && (
          <WhenFields value={details.when} onChange={(when) => put({ when })} error={whenWrong} />
        )}
      </div>
      <TextField label="Note" optional rows={1} value={details.note} onChange={(note) => put({ note })} />
    </>
  );
}
