import { lazy, type ReactNode, Suspense, useState } from "react";
import { useSignOut } from "../../shared/api/index.ts";
import { useKeptCount } from "../../shared/draft/index.ts";

const SignOutDialog = lazy(() => import("./SignOutDialog.tsx"));

/** Signs out at once, unless something typed would be lost or the bench cannot be told. */
export function SignOutButton({
  where = "here",
  className,
  children = "Sign out",
}: {
  where?: "here" | "everywhere";
  className?: string;
  children?: ReactNode;
}) {
  const signOut = useSignOut();
  const kept = useKeptCount();
  const [asks, setAsks] = useState(false);
  const press = () => {
    if (kept > 0) setAsks(true);
    else signOut.mutate(where, { onError: () => setAsks(true) });
  };
  return (
    <>
      <button type="button" className={className} onClick={press}>
        {children}
      </button>
      {asks && (
        <Suspense>
          <SignOutDialog
            kept={kept}
            error={signOut.error}
            busy={signOut.isPending}
            onSignOut={() => signOut.mutate(where)}
            onClose={() => setAsks(false)}
          />
        </Suspense>
      )}
    </>
  );
}
