import { Link, type LinkProps } from "@tanstack/react-router";
import type { ButtonHTMLAttributes, ReactNode } from "react";

interface ButtonProps extends ButtonHTMLAttributes<HTMLButtonElement> {
  /** The one thing to do on this screen: at most one. */
  first?: boolean;
  /** Says so, in words of its own where they are given, and takes no second press; keeps its place and its focus. */
  busy?: boolean | string;
}

/** A button whose label is a verb. */
export function Button({
  first,
  busy,
  className = "",
  children,
  onClick,
  type = "button",
  "aria-disabled": disabled,
  ...rest
}: ButtonProps) {
  return (
    <button
      {...rest}
      type={type}
      className={`button ${first ? "first" : ""} ${className}`}
      aria-disabled={busy ? true : disabled}
      onClick={busy ? (event) => event.preventDefault() : onClick}
    >
      {busy ? (busy === true ? "Saving…" : busy) : children}
    </button>
  );
}

/** A link that looks like a button: it goes somewhere, it does not save. */
export function ButtonLink({
  first,
  children,
  ...link
}: LinkProps & { first?: boolean; children: ReactNode }) {
  return (
    <Link {...link} className={`button ${first ? "first" : ""}`}>
      {children}
    </Link>
  );
}
