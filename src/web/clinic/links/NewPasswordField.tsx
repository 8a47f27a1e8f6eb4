import { passwordFaults, passwordLength } from "../../../record/accounts/password/policy.ts";
import { PasswordField } from "../../shared/ui/index.ts";

/** What is wrong with a new password, as a sentence. `own`: names that it may not be made of. */
export function newPasswordWrong(password: string, own: readonly string[]): string | undefined {
  const [fault] = passwordFaults(
    password,
    own.filter((name) => name.trim()),
  );
  return fault && `This ${fault.problem}. Give ${fault.expected}.`;
}

/** A password that is being chosen. */
export function NewPasswordField({
  label = "Password",
  value,
  onChange,
  error,
}: {
  label?: string;
  value: string;
  onChange: (password: string) => void;
  error?: string;
}) {
  return (
    <PasswordField
      label={label}
      kind="new"
      value={value}
      onChange={onChange}
      error={error}
      hint={`${passwordLength.min} characters or more. Three or four words that have nothing to do with each other are easy to keep in mind.`}
    />
  );
}
