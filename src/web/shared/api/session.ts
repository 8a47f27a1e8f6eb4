import { type QueryClient, useMutation, useQuery, useQueryClient } from "@tanstack/react-query";
import { useCallback } from "react";
import type { Session } from "../../../record/session.ts";
import { forgetDraftsOf } from "../draft/index.ts";
import { gate } from "./gate.ts";
import { useReach } from "./reach.ts";
import { ApiError, ask } from "./request.ts";
import { tellTabs } from "./tabs.ts";

/** The session as this tab knows it. */
export interface KnownSession extends Session {
  /** It ended without being left: what the page shows stays, under a question to sign in again. */
  lost: boolean;
  /** When the bench said so, by this machine's clock. */
  answeredMs: number;
}

const sessionKey = ["session"];
const minuteMs = 60_000;

export function useSession() {
  const queries = useQueryClient();
  const { reachable } = useReach();
  return useQuery({
    queryKey: sessionKey,
    // Only the first is asked by somebody; the rest are this page looking whether all is as it was.
    queryFn: async ({ signal }) =>
      takeIn(queries, await ask<Session>("/session", { signal, unattended: isKnown(queries) })),
    refetchInterval: ({ state: { data } }) => {
      if (!reachable) return 10_000;
      return data?.signedIn ? 10 * minuteMs : false;
    },
    refetchOnWindowFocus: ({ state: { data } }) => data?.signedIn ?? true,
  });
}

/** Looks whether the session still stands, without renewing it. */
export function useLookAgain(): () => Promise<void> {
  const queries = useQueryClient();
  return useCallback(() => queries.invalidateQueries({ queryKey: sessionKey }), [queries]);
}

/** Asks as somebody who is at the page, so that the session goes on. */
export function useStaySignedIn() {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async () => takeIn(queries, await ask<Session>("/session")),
    gcTime: 0,
  });
}

/** Takes in the session that a sign-in, a set-up or a link brought, here and in the other tabs. */
export function useArrive(): (session: Session) => Promise<void> {
  const queries = useQueryClient();
  return async (session) => {
    // A look at the session that is still on its way would tell of the one before.
    await queries.cancelQueries({ queryKey: sessionKey });
    takeIn(queries, session);
    tellTabs({ event: "arrived" });
  };
}

/** Ends the session, here alone or wherever this account is signed in, and clears what this browser kept of it. */
export function useSignOut() {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async (where: "here" | "everywhere") => {
      const path = where === "here" ? "/sign-out" : "/sign-out-everywhere";
      await ask(path, { method: "POST", once: true }).catch((error) => {
        // It had ended already: what this browser keeps is cleared all the same.
        if (!(error instanceof ApiError) || error.code !== "signInFirst") throw error;
      });
    },
    onSuccess: async () => {
      await queries.cancelQueries();
      const accountId = queries.getQueryData<KnownSession>(sessionKey)?.account?.accountId;
      if (!accountId) return;
      leave(queries, accountId);
      tellTabs({ event: "left", accountId });
    },
  });
}

/** Clears what this tab holds of an account that was signed out of. */
export function leave(queries: QueryClient, accountId: string): void {
  forgetDraftsOf(accountId);
  const known = queries.getQueryData<KnownSession>(sessionKey);
  if (known?.account?.accountId !== accountId) return;
  settleAll(false);
  clearAllBut(queries);
  queries.setQueryData<KnownSession>(sessionKey, { ...known, ...nobody, lost: false });
}

const nobody = {
  signedIn: false,
  account: null,
  author: null,
  clinic: null,
  strongUntilMs: null,
  counts: { people: 0, active: 0, entries: 0 },
} as const;

/** A session that ended keeps its page; another person begins with an empty cache; the same one goes on. */
function takeIn(queries: QueryClient, answer: Session): KnownSession {
  const before = queries.getQueryData<KnownSession>(sessionKey);
  if (!answer.signedIn && before?.signedIn) return held(queries, { ...before, lost: true });
  const same = before?.account?.accountId === answer.account?.accountId;
  if (before?.account && !same) clearAllBut(queries);
  const known = held(queries, { ...answer, lost: false, answeredMs: Date.now() });
  if (answer.signedIn) gate.settle("signIn", same);
  if (!same) settleAll(false);
  return known;
}

function held(queries: QueryClient, known: KnownSession): KnownSession {
  return queries.setQueryData<KnownSession>(sessionKey, known) ?? known;
}

function settleAll(passed: boolean): void {
  gate.settle("signIn", passed);
  gate.settle("confirm", passed);
}

/** Everything fetched is dropped but the session itself. */
function clearAllBut(queries: QueryClient): void {
  queries.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== sessionKey[0] });
  queries.getMutationCache().clear();
}

function isKnown(queries: QueryClient): boolean {
  return queries.getQueryData(sessionKey) !== undefined;
}
