import { useQuery } from "@tanstack/react-query";
import { useMemo } from "react";
import type { StoredEntry } from "../../../record/entry/index.ts";
import { personStory } from "../../../record/story/story.ts";
import { ask } from "./request.ts";

/** Everything ever written about a person, in the order in which it was. */
export function usePersonEntries(personId: string, { enabled = true } = {}) {
  return useQuery({
    enabled,
    queryKey: ["person", personId],
    queryFn: async () => (await ask<{ entries: StoredEntry[] }>(`/people/${personId}`)).entries,
  });
}

/** A person's record with corrections applied. */
export function usePerson(personId: string, { enabled = true } = {}) {
  const query = usePersonEntries(personId, { enabled });
  const story = useMemo(() => (query.data ? personStory(query.data) : undefined), [query.data]);
  return { ...query, story };
}
