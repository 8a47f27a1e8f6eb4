import type { ReactNode } from "react";
import { ErrorNote, LoadingNote } from "./notes.tsx";

interface Query<T> {
  data: T | undefined;
  error: unknown;
  isError: boolean;
  refetch: () => unknown;
}

/** What a query brings: its data as soon as there are any, else the wait or the error with a way to retry. */
export function Loaded<T>({
  query,
  what,
  children,
}: {
  query: Query<T>;
  /** As in "Fetching …". */
  what: string;
  children: (data: T) => ReactNode;
}) {
  if (query.data !== undefined) return children(query.data);
  if (query.isError) return <ErrorNote error={query.error} retry={() => query.refetch()} />;
  return <LoadingNote what={what} />;
}
