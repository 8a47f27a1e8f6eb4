import { useQuery } from "@tanstack/react-query";
import { Link } from "@tanstack/react-router";
import type { ReactNode } from "react";
import { ApiError, ask, useSession } from "../../shared/api/index.ts";
import { ErrorNote, LoadingNote, Opening } from "../../shared/ui/index.ts";
import { useToken } from "./token.ts";
import "./links.css";

/** A page that a one-time link opens: looks what the link is for before anything is asked. */
export function LinkPage<T>({
  title,
  look,
  renewal,
  children,
}: {
  title: string;
  /** Where the bench says what the token is for. */
  look: string;
  /** How one comes by another link. */
  renewal: ReactNode;
  children: (about: T, token: string) => ReactNode;
}) {
  const token = useToken();
  const about = useQuery({
    queryKey: ["link", look, token],
    queryFn: () => ask<T>(look, { method: "POST", body: { token } }),
    enabled: token !== null,
    staleTime: Number.POSITIVE_INFINITY,
    retry: false,
  });
  if (token === null) {
    return (
      <NoLink title={title} renewal={renewal}>
        This page opens from a link that works once. It is not kept when the page is loaded again: open the
        link itself again.
      </NoLink>
    );
  }
  if (about.data) return children(about.data, token);
  if (about.error instanceof ApiError && about.error.status === 410) {
    return (
      <NoLink title={title} renewal={renewal}>
        {about.error.message}
      </NoLink>
    );
  }
  return (
    <>
      <Opening title={title} />
      {about.isError ? (
        <ErrorNote error={about.error} retry={() => about.refetch()} />
      ) : (
        <LoadingNote what="what the link is for" />
      )}
    </>
  );
}

function NoLink({ title, renewal, children }: { title: string; renewal: ReactNode; children: ReactNode }) {
  return (
    <Opening title={title} lead={children}>
      <p className="small">{renewal}</p>
      <p>
        <Link to="/">Go to the bench</Link>
      </p>
    </Opening>
  );
}

/** Whoever is signed in here will not be afterwards. */
export function SignedInNote() {
  const { data } = useSession();
  if (!data?.account) return null;
  return (
    <p className="small">
      <b>{data.account.displayName}</b> is signed in in this browser and will be signed out by this.
    </p>
  );
}
