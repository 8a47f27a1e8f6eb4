import { useRef } from "react";
import { Button } from "../../../shared/ui/index.ts";

/** Chooses a file; on a phone the system offers its camera too. */
export function FileButton({
  label,
  accept,
  onFile,
}: {
  label: string;
  accept: string;
  onFile: (file: File) => void;
}) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button onClick={() => input.current?.click()}>{label}</Button>
      <input
        ref={input}
        type="file"
        hidden
        accept={accept}
        aria-label={label}
        onChange={(event) => {
          const file = event.target.files?.[0];
          // The same file may be chosen again after it was mended.
          event.target.value = "";
          if (file) onFile(file);
        }}
      />
    </>
  );
}
