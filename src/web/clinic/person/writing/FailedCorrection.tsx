import type { StoredEntry } from "../../../../record/entry/index.ts";
import { ApiError, type useAppend } from "../../../shared/api/index.ts";
import { ErrorNote } from "../../../shared/ui/index.ts";
import { OtherCorrection } from "./OtherCorrection.tsx";

/** Why a correction was not saved: somebody else's came first, or anything else. */
export function FailedCorrection({
  append,
  onTakeOver,
}: {
  append: ReturnType<typeof useAppend>;
  /** To correct theirs instead of the entry they corrected. */
  onTakeOver: (correctsId: string) => void;
}) {
  const other = otherCorrection(append.error);
  if (!other) return <ErrorNote error={append.error} />;
  return (
    <OtherCorrection
      other={other}
      onTakeOver={() => {
        onTakeOver(other.id);
        append.reset();
      }}
    />
  );
}

/** The correction that came first, where the bench refused this one for it. */
function otherCorrection(error: unknown): StoredEntry | null {
  if (!(error instanceof ApiError) || error.code !== "alreadyCorrected") return null;
  return error.existing ?? null;
}
