import { useState } from "react";
import {
  evenlySpaced,
  type TracedOutline,
  type TracingFile,
  withoutLongEdges,
} from "../../../../record/tracing/index.ts";
import { Button, Choice, Dialog, Form, NumberField } from "../../../shared/ui/index.ts";
import { mm, readDecimal } from "../../../shared/words/index.ts";
import { newTraced, type Traced } from "../state/index.ts";
import { OutlineSketch } from "./OutlineSketch.tsx";

/** More points than this are thinned: the edge of a stoma has no finer detail. */
const mostPoints = 720;

/** Which line of the file it is, and whether its size is believed. */
export function ImportDialog({
  file,
  onTake,
  onClose,
}: {
  file: TracingFile;
  onTake: (traced: Traced) => void;
  onClose: () => void;
}) {
  const { outlines } = file;
  const [chosen, setChosen] = useState(
    String(
      Math.max(
        0,
        outlines.findIndex(({ problem }) => !problem),
      ),
    ),
  );
  const [lengthMm, setLengthMm] = useState("");
  const [tried, setTried] = useState(false);
  const traced = outlines[Number(chosen)]!;
  const trueLength = lengthMm.trim() === "" ? traced.lengthMm : readDecimal(lengthMm);
  const take = () => {
    setTried(true);
    if (traced.problem || trueLength === null || !(trueLength > 0)) return;
    onTake(taken(file, traced, trueLength / traced.lengthMm));
  };
  return (
    <Dialog title="A line from a file" onClose={onClose}>
      <Form label="A line from a file" onSend={take}>
        {outlines.length > 1 && (
          <Choice
            label={`The file holds ${outlines.length} lines. Which is the stoma?`}
            stacked
            value={chosen}
            onChange={setChosen}
            choices={outlines.map((one, index) => ({ value: String(index), label: lineWords(one) }))}
          />
        )}
        <div className="fit-import">
          <OutlineSketch outline={traced.outline} label={`The line “${traced.name}”`} />
          <div>
            <p className="lead">
              <b>{mm(traced.lengthMm)}</b> up the page, <b>{mm(traced.widthMm)}</b> across.
            </p>
            {traced.problem && (
              <p className="wrong" role="alert">
                {traced.problem.text}
              </p>
            )}
            {traced.joinedMm >= 1 && (
              <p className="note">Its ends lie {mm(traced.joinedMm)} apart and are joined.</p>
            )}
            {file.notes.map(({ code, text }) => (
              <p className="note" key={code}>
                {text}
              </p>
            ))}
          </div>
        </div>
        <NumberField
          label="True length up the page, if the file’s size is wrong"
          unit="mm"
          value={lengthMm}
          onChange={setLengthMm}
          error={tried && (trueLength === null || !(trueLength > 0)) ? "Write a length in mm." : undefined}
        />
        <p className="formend">
          <Button first type="submit" disabled={traced.problem !== null}>
            Take this line
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </p>
      </Form>
    </Dialog>
  );
}

function lineWords({ name, lengthMm, widthMm, problem }: TracedOutline): string {
  return `${name}: ${lengthMm.toFixed(1)} × ${mm(widthMm)}${problem ? ", crosses itself" : ""}`;
}

function taken(file: TracingFile, { name, outline, joinedMm }: TracedOutline, scale: number): Traced {
  const line =
    outline.length > mostPoints ? evenlySpaced(outline, mostPoints) : withoutLongEdges(outline, 0.5 / scale);
  const source = file.format === "svg" ? `SVG file, “${name}”` : "CSV file of points";
  const traced = newTraced(line, source, joinedMm);
  return { ...traced, placing: { ...traced.placing, scale } };
}
