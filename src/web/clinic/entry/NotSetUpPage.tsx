import { useLookAgain } from "../../shared/api/index.ts";
import { Button, Opening } from "../../shared/ui/index.ts";

/** Nobody has an account yet: the link to make the first one was printed where the bench was started. */
export function NotSetUpPage() {
  const look = useLookAgain();
  return (
    <Opening
      title="This bench is not set up yet"
      lead="Whoever started it finds a link in the same window, ending in “/set-up#” and a long word. Open that link here."
    >
      <p className="small">
        It works once. Starting the bench again prints a new one, and so does{" "}
        <code>roundel account setup-link</code>.
      </p>
      <p className="formend">
        <Button onClick={() => look()}>Look again</Button>
      </p>
    </Opening>
  );
}
