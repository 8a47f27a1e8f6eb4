import { ButtonLink, Opening } from "../../shared/ui/index.ts";

/** After the set-up: the one thing that must be done outside the browser before people depend on the record. */
export function RecoveryKeyPage() {
  return (
    <>
      <Opening
        title="The clinic is set up"
        lead="One thing is left, and it is done at the machine that keeps the record: print the recovery key and prove it."
      />
      <div className="links-key">
        <p>
          Photographs and backups are locked with a key file on that machine. If the machine is lost, only the
          recovery key on paper opens a backup. Nobody else has a copy, and no page ever shows it.
        </p>
        <ol>
          <li>
            Make it and print the page: <code>roundel keys recovery --data FOLDER -o recovery-key.pdf</code>.
            It is shown this once; delete the file when the paper lies before you.
          </li>
          <li>
            Prove it: <code>roundel keys prove --data FOLDER</code> asks for what stands on the paper and
            restores a small backup with it. Do so again once a year.
          </li>
          <li>Lock the paper away, at another place than the machine.</li>
        </ol>
        <p className="formend">
          <ButtonLink first to="/">
            Go to Today
          </ButtonLink>
        </p>
      </div>
    </>
  );
}
