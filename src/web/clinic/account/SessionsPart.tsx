import { type OwnAccount, useAccountAct } from "../../shared/api/index.ts";
import { Button, ErrorNote } from "../../shared/ui/index.ts";
import { agoWords } from "../../shared/words/index.ts";
import { SignOutButton } from "../entry/SignOutButton.tsx";
import { Part } from "./Part.tsx";

/** Where one is signed in: each can be ended from here, or all at once. */
export function SessionsPart({ sessions }: { sessions: OwnAccount["sessions"] }) {
  const end = useAccountAct<string>((sessionId) => [`/account/sessions/${sessionId}`, { method: "DELETE" }]);
  return (
    <Part title="Where you are signed in" about="A place you do not know? End it, then change your password.">
      <ul className="account-list">
        {sessions.map((session) => (
          <li key={session.sessionId}>
            <p>
              <b>{session.device}</b>
              <span className="note">
                {session.current ? "This one. " : ""}Signed in {agoWords(Date.now() - session.createdMs)}
                {!session.current && `, last used ${agoWords(Date.now() - session.lastSeenMs)}`}.
              </span>
            </p>
            {!session.current && (
              <Button
                busy={end.isPending && end.variables === session.sessionId && "Ending…"}
                onClick={() => end.mutate(session.sessionId)}
                aria-label={`End: ${session.device}, signed in ${agoWords(Date.now() - session.createdMs)}`}
              >
                End it
              </Button>
            )}
          </li>
        ))}
      </ul>
      <ErrorNote error={end.error} />
      <p className="formend">
        <SignOutButton where="everywhere" className="button">
          Sign out everywhere, here too
        </SignOutButton>
      </p>
    </Part>
  );
}
