import { useNavigate, useSearch } from "@tanstack/react-router";
import { useCallback } from "react";
import type { Writing } from "../../routes.tsx";

/** Opens a form: what is being written stands in the address, so that going back closes it. */
export function useWrite(): (what: Writing, about?: string) => void {
  const navigate = useNavigate({ from: "/people/$personId" });
  return useCallback(
    (what, about) => {
      navigate({ search: (search) => ({ ...search, write: what, entry: about }), resetScroll: false });
    },
    [navigate],
  );
}

/** What the address says is being written, and how to end it. */
export function useWriting() {
  const navigate = useNavigate({ from: "/people/$personId" });
  const { write: open, entry } = useSearch({ from: "/people/$personId" });
  const close = () =>
    navigate({
      search: (search) => ({ ...search, write: undefined, entry: undefined }),
      replace: true,
      resetScroll: false,
    });
  return { open, entry, close };
}
