import { useQueryClient } from "@tanstack/react-query";

/** Fetches one's own account anew. */
export function useRefreshAccount(): () => Promise<void> {
  const queries = useQueryClient();
  return () => queries.invalidateQueries({ queryKey: ["account"] });
}
