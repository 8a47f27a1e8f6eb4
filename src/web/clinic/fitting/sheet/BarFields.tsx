import { NumberField } from "../../../shared/ui/index.ts";
import { type BarsRead, type BarsTyped, barMm, scaleLimits } from "./bars.ts";

/** What a ruler says of the two long bars of a sheet. */
export function BarFields({
  value,
  onChange,
  read,
  tried,
}: {
  value: BarsTyped;
  onChange: (value: BarsTyped) => void;
  read: BarsRead;
  tried: boolean;
}) {
  const wrong = wrongOf(read, tried);
  return (
    <div className="fields">
      <NumberField
        label={`${barMm} mm bar across`}
        unit="mm"
        value={value.across}
        onChange={(across) => onChange({ ...value, across })}
        error={wrong}
      />
      <NumberField
        label={`${barMm} mm bar upright`}
        unit="mm"
        value={value.upright}
        onChange={(upright) => onChange({ ...value, upright })}
      />
    </div>
  );
}

function wrongOf(read: BarsRead, tried: boolean): string | undefined {
  if (read.said === "absurd") {
    const [least, most] = [scaleLimits.least * barMm, scaleLimits.most * barMm];
    return `No printer is this far off: ${least} to ${most} mm. Measure the ${barMm} mm bars again, printed at actual size.`;
  }
  return tried && read.said === "unreadable" ? "Write both lengths, such as 99.8." : undefined;
}
