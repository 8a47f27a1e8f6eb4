import { Outlet, useLocation, useRouterState } from "@tanstack/react-router";
import { createContext, lazy, type ReactNode, Suspense, useContext, useEffect, useRef } from "react";
import type { Role } from "../../../record/accounts/account.ts";
import type { Session } from "../../../record/session.ts";
import { type KnownSession, useSession } from "../../shared/api/index.ts";
import { DraftOwner } from "../../shared/draft/index.ts";
import { Loaded, OfflineNote } from "../../shared/ui/index.ts";
import { SessionWatch } from "../entry/SessionWatch.tsx";
import { isLinkPath } from "../links/token.ts";
import { RunningHead } from "./RunningHead.tsx";
import { useOtherTabs } from "./useOtherTabs.ts";
import "./frame.css";

export { ReadOnly } from "./ReadOnly.tsx";

const SignInPage = lazy(() => import("../entry/index.ts").then((file) => ({ default: file.SignInPage })));
const NotSetUpPage = lazy(() => import("../entry/index.ts").then((file) => ({ default: file.NotSetUpPage })));

/** What somebody's role lets them do; pages leave out what the bench would refuse. */
export interface May {
  /** Write about people. */
  write: boolean;
  /** Look after protocol, clinic, accounts and the record. */
  lead: boolean;
}

/** A session of somebody who is signed in to a clinic: what every page of the bench may rely on. */
export type Bench = Session & {
  clinic: NonNullable<Session["clinic"]>;
  account: NonNullable<Session["account"]>;
  may: May;
};

const BenchContext = createContext<Bench | null>(null);

/** The clinic, who is signed in, today's date there and the protocol in force. */
export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (!bench) throw new Error("nobody is signed in");
  return bench;
}

/** Head, notes and the page, for whoever is signed in; the sign-in stands at whatever address was asked for. */
export function Frame() {
  const session = useSession();
  const { pathname } = useLocation();
  const accountId = session.data?.account?.accountId;
  const who = session.data && (accountId ?? "nobody");
  useOtherTabs();
  useHeadingFocus(who);
  return (
    <DraftOwner value={who ?? "nobody"}>
      <div className="page">
        <a className="skip" href="#page">
          Skip to the page
        </a>
        <RunningHead session={session.data} />
        <OfflineNote />
        <main id="page" tabIndex={-1}>
          <Loaded query={session} what="the clinic">
            {(data) => <Admitted session={data} pathname={pathname} />}
          </Loaded>
        </main>
        {session.data?.signedIn && <SessionWatch session={session.data} />}
      </div>
    </DraftOwner>
  );
}

function Admitted({ session, pathname }: { session: KnownSession; pathname: string }): ReactNode {
  const { clinic, account } = session;
  if (isLinkPath(pathname)) return <Outlet />;
  if (!session.signedIn || !account || !clinic) {
    return <Suspense>{session.setUp ? <SignInPage session={session} /> : <NotSetUpPage />}</Suspense>;
  }
  return (
    <BenchContext.Provider
      key={account.accountId}
      value={{ ...session, clinic, account, may: mayOf(account.role) }}
    >
      <Outlet />
    </BenchContext.Provider>
  );
}

function mayOf(role: Role): May {
  return { write: role === "lead" || role === "nurse", lead: role === "lead" };
}

/** After going from page to page, or signing in, the focus stands on the new title, so that it is read out. */
function useHeadingFocus(who: string | undefined): void {
  const pathname = useRouterState({ select: (state) => state.resolvedLocation?.pathname });
  // Unknown while the first page is being made: there nobody has gone anywhere yet.
  const place = pathname && who && `${pathname} ${who}`;
  const last = useRef(place);
  useEffect(() => {
    const arrived = last.current !== undefined && last.current !== place;
    last.current = place;
    if (!arrived) return;
    const page = document.getElementById("page")!;
    const focused = () => {
      const heading = page.querySelector<HTMLElement>("h1");
      heading?.focus({ preventScroll: true });
      return heading !== null;
    };
    if (focused()) return;
    const observer = new MutationObserver(() => focused() && observer.disconnect());
    observer.observe(page, { childList: true, subtree: true });
    return () => observer.disconnect();
  }, [place]);
}
