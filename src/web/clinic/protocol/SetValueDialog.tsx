import { useState } from "react";
import { draftEntry, nowIn, type ProtocolValue, useAppend } from "../../shared/api/index.ts";
import { useDraft } from "../../shared/draft/index.ts";
import { Button, Dialog, ErrorNote, Form, NumberField, TextField } from "../../shared/ui/index.ts";
import { readDecimal } from "../../shared/words/index.ts";
import { useBench } from "../frame/index.tsx";
import { shownValue } from "./shownValue.ts";

/** Sets one threshold, with a reason; a value outside its limits is refused with a sentence. */
export function SetValueDialog({ value, onClose }: { value: ProtocolValue; onClose: () => void }) {
  const { clinic } = useBench();
  const kept = useDraft(`protocol:${value.key}`, () => ({ typed: String(value.value), reason: "" }));
  const append = useAppend();
  const [tried, setTried] = useState(false);
  const wrong = wrongIn(kept.value, value);
  const send = () => {
    setTried(true);
    if (wrong.typed || wrong.reason) return;
    const entry = draftEntry(
      "protocolSet",
      { key: value.key, value: readDecimal(kept.value.typed)! },
      {
        id: kept.id,
        personId: null,
        stomaId: null,
        at: nowIn(clinic.details.timeZone),
        reason: kept.value.reason.trim(),
      },
    );
    append.mutate([entry], {
      onSuccess: () => {
        kept.forget();
        onClose();
      },
    });
  };
  return (
    <Dialog title={value.label} onClose={onClose}>
      <Form onSend={send}>
        <NumberField
          label="Value"
          unit={value.unit}
          value={kept.value.typed}
          onChange={(typed) => kept.set((now) => ({ ...now, typed }))}
          error={tried ? wrong.typed : undefined}
          hint={`From ${value.min} to ${shownValue(value.max, value.unit)}; default ${shownValue(value.default, value.unit)}.`}
        />
        <TextField
          label="Reason"
          rows={2}
          value={kept.value.reason}
          onChange={(reason) => kept.set((now) => ({ ...now, reason }))}
          error={tried ? wrong.reason : undefined}
          hint="It stays beside the value with your name."
        />
        <ErrorNote error={append.error} />
        <p className="formend">
          <Button first type="submit" busy={append.isPending}>
            Set the value
          </Button>
          {value.value !== value.default && (
            <Button onClick={() => kept.set((now) => ({ ...now, typed: String(value.default) }))}>
              Back to the default
            </Button>
          )}
        </p>
      </Form>
    </Dialog>
  );
}

function wrongIn(
  form: { typed: string; reason: string },
  { min, max, unit, value }: ProtocolValue,
): { typed?: string; reason?: string } {
  const number = readDecimal(form.typed);
  return {
    typed: valueWrong(number, min, max, unit, value),
    reason: form.reason.trim() ? undefined : "Write why: whoever reads advice later will ask.",
  };
}

function valueWrong(number: number | null, min: number, max: number, unit: string, now: number) {
  if (number === null) return "Write a number.";
  if (number < min || number > max) {
    return `${shownValue(number, unit)} is outside what this value may be: ${min} to ${shownValue(max, unit)}.`;
  }
  return number === now ? "That is the value already in force." : undefined;
}
