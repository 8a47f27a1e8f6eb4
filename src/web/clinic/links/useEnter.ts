import { useNavigate } from "@tanstack/react-router";
import type { Session } from "../../../record/session.ts";
import { useArrive } from "../../shared/api/index.ts";
import { dropToken } from "./token.ts";

/** Into the bench with the session that a link brought. */
export function useEnter(): (session: Session) => Promise<void> {
  const arrive = useArrive();
  const navigate = useNavigate();
  return async (session) => {
    await arrive(session);
    await navigate({ to: "/", replace: true });
    dropToken();
  };
}
