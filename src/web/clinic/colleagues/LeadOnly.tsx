import { Link } from "@tanstack/react-router";
import type { ReactNode } from "react";
import { Opening } from "../../shared/ui/index.ts";
import { useBench } from "../frame/index.tsx";

/** A page of the lead's: anybody else who comes to its address is told so. */
export function LeadOnly({ title, children }: { title: string; children: ReactNode }) {
  if (useBench().may.lead) return children;
  return (
    <Opening title={title} lead="This page is the lead’s.">
      <p>
        <Link to="/">Go to Today</Link>
      </p>
    </Opening>
  );
}
