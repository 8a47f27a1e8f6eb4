import type { BodyOf } from "../../../record/entry/index.ts";

/** The details as those see them who may not change them. */
export function ClinicDetails({ details }: { details: BodyOf<"clinic"> }) {
  const lines = [
    ["Name of the clinic", details.name],
    ["Nurse to ask for", details.nurse.name],
    ["Number in clinic hours", details.nursePhone],
    ["Number out of hours", details.outOfHoursPhone ?? "not given"],
    ["Emergency number", details.emergencyNumber ?? "not given"],
    ["Time zone", details.timeZone.replaceAll("_", " ")],
    ["Paper", details.paper],
  ] as const;
  return (
    <div className="setup-details">
      <dl>
        {lines.map(([label, words]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <p className="note">The lead of the service changes these.</p>
    </div>
  );
}
