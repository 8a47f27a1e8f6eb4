import { type UseMutationResult, useMutation, useQuery, useQueryClient } from "@tanstack/react-query";
import type { Account, Passkey, Role, SessionLine } from "../../../record/accounts/account.ts";
import { type Ask, ask } from "./request.ts";

/** One's own account, as GET /api/account tells it. */
export interface OwnAccount {
  account: Account;
  sessions: (SessionLine & { current: boolean })[];
  /** `here`: made for the address at which the bench is open, and so of use. */
  passkeys: (Omit<Passkey, "rpId"> & { here: boolean })[];
}

export function useOwnAccount() {
  return useQuery({ queryKey: ["account"], queryFn: () => ask<OwnAccount>("/account") });
}

/** A link that was made and not used yet. */
export interface OpenLink {
  linkId: string;
  kind: "join" | "recover";
  /** Whose new password it sets; null where the account is still to be made. */
  accountId: string | null;
  role: Role | null;
  displayName: string | null;
  expiresMs: number;
}

export interface Accounts {
  accounts: Account[];
  links: OpenLink[];
}

/** Everybody who has or had an account, for the lead. */
export function useAccounts({ enabled = true } = {}) {
  return useQuery({ queryKey: ["accounts"], queryFn: () => ask<Accounts>("/accounts"), enabled });
}

/** A link as it is shown, once. */
export interface MadeLink {
  link: string;
  expiresMs: number;
}

/** Something done to accounts: what was fetched about them is fetched anew. */
export function useAccountAct<Given, Answer = void>(
  asked: (given: Given) => [path: string, request: Ask],
): UseMutationResult<Answer, Error, Given> {
  const queries = useQueryClient();
  return useMutation<Answer, Error, Given>({
    mutationFn: (given) => ask<Answer>(...asked(given)),
    onSuccess: () =>
      Promise.all(
        ["account", "accounts", "session"].map((key) => queries.invalidateQueries({ queryKey: [key] })),
      ),
  });
}
