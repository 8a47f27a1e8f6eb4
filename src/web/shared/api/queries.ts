import {
  keepPreviousData,
  QueryClient,
  useInfiniteQuery,
  useMutation,
  useQuery,
  useQueryClient,
} from "@tanstack/react-query";
import type { ProtocolDefinition, ProtocolKey } from "../../../domain/protocol/index.ts";
import type { BodyOf, Draft, StoredEntry } from "../../../record/entry/index.ts";
import type { Session } from "../../../record/session.ts";
import type { PeoplePage } from "../../../record/store/store.ts";
import type { Today } from "../../../record/today/index.ts";
import { forgetDraftsAbout } from "../draft/index.ts";
import { ApiError, ask } from "./request.ts";

const minuteMs = 60_000;

/** One cache for the whole bench. Requests are tried even when the browser believes itself offline. */
export function benchQueries(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      queries: {
        networkMode: "always",
        staleTime: 5_000,
        retry: (tries, error) => tries < 2 && error instanceof ApiError && error.status >= 500,
      },
      mutations: { networkMode: "always" },
    },
  });
}

export function useToday() {
  return useQuery({
    queryKey: ["today"],
    queryFn: ({ client }) =>
      ask<Today>("/today", { unattended: client.getQueryData(["today"]) !== undefined }),
    refetchInterval: 5 * minuteMs,
  });
}

const pageSize = 50;

/** People whose name or record number contains `text`, a page at a time. */
export function usePeople(text: string) {
  return useInfiniteQuery({
    queryKey: ["people", text],
    queryFn: ({ pageParam, signal }) => {
      const query = new URLSearchParams({ text, limit: String(pageSize) });
      if (pageParam) query.set("after", pageParam);
      return ask<PeoplePage>(`/people?${query}`, { signal });
    },
    initialPageParam: null as string | null,
    getNextPageParam: (page) => page.next,
    placeholderData: keepPreviousData,
  });
}

export interface ProtocolValue extends ProtocolDefinition {
  key: ProtocolKey;
  value: number;
  changedBy?: string;
  changedAt?: string;
  reason?: string;
}

export interface ProtocolPageData {
  groups: { name: string; values: ProtocolValue[] }[];
  version: number;
}

export function useProtocol() {
  return useQuery({ queryKey: ["protocol"], queryFn: () => ask<ProtocolPageData>("/protocol") });
}

/** Saves entries, all or none. A retry with the same ids is harmless. */
export function useAppend() {
  const queries = useQueryClient();
  return useMutation<StoredEntry[], Error, Draft[]>({
    mutationFn: async (entries) =>
      (await ask<{ entries: StoredEntry[] }>("/entries", { method: "POST", body: { entries } })).entries,
    onSuccess: () => queries.invalidateQueries(),
    onError: (error, entries) => {
      // Somebody who was erased meanwhile is to be found nowhere, and in no draft either.
      if (!(error instanceof ApiError) || error.code !== "erased") return;
      forgetDraftsAbout(entries.flatMap(({ personId }) => personId ?? []));
      return queries.invalidateQueries();
    },
  });
}

export type ClinicDetails = Omit<BodyOf<"clinic">, "nurse"> & { nurse: { id?: string; name: string } };

export function useSaveClinic() {
  const queries = useQueryClient();
  return useMutation<Session, Error, ClinicDetails>({
    mutationFn: (details) => ask<Session>("/clinic", { method: "POST", body: { details } }),
    onSuccess: () => queries.invalidateQueries(),
  });
}
