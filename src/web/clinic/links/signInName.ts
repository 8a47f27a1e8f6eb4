/** What is wrong with a name to sign in with; the bench holds it to the same. */
export function signInNameWrong(name: string): string | undefined {
  const length = [...name.trim()].length;
  if (length === 0) return "Write the name you will sign in with.";
  return length < 2 || length > 64 ? "Give between 2 and 64 characters." : undefined;
}
