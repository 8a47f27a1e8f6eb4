import { Navigate, Outlet, useLocation, useRouterState } from "@tanstack/react-router";
import { createContext, type ReactNode, useContext, useEffect, useRef } from "react";
import type { Session } from "../../../record/session.ts";
import { useSession } from "../../shared/api/index.ts";
import { Loaded, OfflineNote } from "../../shared/ui/index.ts";
import { RunningHead } from "./RunningHead.tsx";
import "./frame.css";

/** A session of a clinic that was set up: what every page but the set-up itself may rely on. */
export type Bench = Session & { clinic: NonNullable<Session["clinic"]> };

const BenchContext = createContext<Bench | null>(null);

/** The clinic, today's date there and the protocol in force. Only inside pages of a clinic that is set up. */
export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (!bench) throw new Error("no clinic is set up");
  return bench;
}

/** Head, notes and the page; before the clinic is set up every address leads to the set-up. */
export function Frame() {
  const session = useSession();
  const { pathname } = useLocation();
  useHeadingFocus();
  return (
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
    </div>
  );
}

function Admitted({ session, pathname }: { session: Session; pathname: string }): ReactNode {
  const { clinic } = session;
  if (!clinic) return pathname === "/clinic" ? <Outlet /> : <Navigate to="/clinic" replace />;
  return (
    <BenchContext.Provider value={{ ...session, clinic }}>
      <Outlet />
    </BenchContext.Provider>
  );
}

/** After going from page to page the focus stands on the new title, so that it is read out. */
function useHeadingFocus(): void {
  const pathname = useRouterState({ select: (state) => state.resolvedLocation?.pathname });
  const last = useRef(pathname);
  useEffect(() => {
    const arrived = last.current !== undefined && last.current !== pathname;
    last.current = pathname;
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
  }, [pathname]);
}
