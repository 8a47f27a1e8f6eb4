import { useInfiniteQuery, useQuery } from "@tanstack/react-query";
import type { AuditLine } from "../../../record/audit/line.ts";
import type { PeoplePage } from "../../../record/store/store.ts";
import { ask } from "../../shared/api/index.ts";

/** Whose lines are shown; both may be left out. */
export interface AuditFilter {
  personId?: string;
  accountId?: string;
}

export interface AuditAnswer {
  lines: AuditLine[];
  /** The lines before this one; null at the beginning of the record. */
  next: number | null;
}

const pageSize = 100;

/** The newest lines first, a page at a time. */
export function useAudit(filter: AuditFilter) {
  return useInfiniteQuery({
    queryKey: ["audit", filter],
    queryFn: ({ pageParam, signal }) => {
      const query = new URLSearchParams({ limit: String(pageSize) });
      if (filter.personId) query.set("personId", filter.personId);
      if (filter.accountId) query.set("accountId", filter.accountId);
      if (pageParam !== null) query.set("before", String(pageParam));
      return ask<AuditAnswer>(`/audit?${query}`, { signal });
    },
    initialPageParam: null as number | null,
    getNextPageParam: ({ next }) => next,
    // Looking leaves a line too: it is not done behind anybody's back.
    staleTime: Number.POSITIVE_INFINITY,
    refetchOnWindowFocus: false,
  });
}

const peopleAtOnce = 200;
const mostPages = 10;

/** Names of people by id: the trail keeps ids alone. Whoever is beyond the first 2,000 stays an id. */
export function useNamesOf(personIds: readonly string[]) {
  const wanted = [...new Set(personIds)].sort();
  return useQuery({
    queryKey: ["names", wanted],
    queryFn: ({ signal }) => namesOf(wanted, signal),
    enabled: wanted.length > 0,
    staleTime: Number.POSITIVE_INFINITY,
    refetchOnWindowFocus: false,
  });
}

async function namesOf(wanted: readonly string[], signal: AbortSignal): Promise<Map<string, string>> {
  const names = new Map<string, string>();
  let after: string | null = null;
  for (let page = 0; page < mostPages && wanted.some((id) => !names.has(id)); page += 1) {
    const query = new URLSearchParams({ limit: String(peopleAtOnce) });
    if (after) query.set("after", after);
    const answer: PeoplePage = await ask<PeoplePage>(`/people?${query}`, { signal });
    for (const { personId, name } of answer.people) names.set(personId, name);
    after = answer.next;
    if (!after) break;
  }
  return names;
}
