import { useNavigate, useSearch } from "@tanstack/react-router";
import type { Writing } from "../../routes.tsx";

/** What is being written stands in the address: going back closes it, loading again keeps it open. */
export function useWriting() {
  const navigate = useNavigate({ from: "/people/$personId" });
  const { write: open, entry } = useSearch({ from: "/people/$personId" });
  return {
    open,
    entry,
    write: (what: Writing, about?: string) =>
      navigate({ search: (search) => ({ ...search, write: what, entry: about }), resetScroll: false }),
    close: () =>
      navigate({
        search: (search) => ({ ...search, write: undefined, entry: undefined }),
        replace: true,
        resetScroll: false,
      }),
  };
}
