import { useQueryClient } from "@tanstack/react-query";
import { useEffect, useState } from "react";
import { askFile, newId } from "../../../shared/api/index.ts";
import type { PrintScale } from "../../../shared/printer/index.ts";

/** What a sheet is asked for with. */
export interface SheetAsk {
  personId: string;
  stomaId: string;
  clearanceMm: number;
  paper: "A4" | "Letter";
  printScale: PrintScale | undefined;
}

/** A sheet that was made: its file, and the entry that says what it was made from. */
export interface SheetMade {
  adviceId: string;
  url: string;
  printScale: PrintScale | undefined;
}

/** Makes a sheet. A failed try keeps its id, so that trying again makes the same sheet and no second entry. */
export function useSheet() {
  const queries = useQueryClient();
  const [adviceId, setAdviceId] = useState(newId);
  const [made, setMade] = useState<SheetMade | null>(null);
  useEffect(() => {
    if (made) return () => URL.revokeObjectURL(made.url);
  }, [made]);

  const make = async (measuredId: string, { personId, stomaId, ...ask }: SheetAsk): Promise<SheetMade> => {
    const file = await askFile(`/people/${personId}/stomas/${stomaId}/cutting-sheet`, {
      method: "POST",
      body: { adviceId, measuredId, ...ask },
    });
    const sheet = { adviceId, url: URL.createObjectURL(file), printScale: ask.printScale };
    setMade(sheet);
    setAdviceId(newId());
    await queries.invalidateQueries();
    return sheet;
  };
  return { made, make };
}
