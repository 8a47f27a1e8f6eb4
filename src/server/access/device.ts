const browsers: [pattern: RegExp, name: string][] = [
  [/\bEdg(e|A|iOS)?\//, "Edge"],
  [/\bOPR\//, "Opera"],
  [/\b(Firefox|FxiOS)\//, "Firefox"],
  [/\b(Chrome|Chromium|CriOS|HeadlessChrome)\//, "Chrome or Chromium"],
  [/\bSafari\//, "Safari"],
];

const systems: [pattern: RegExp, name: string][] = [
  [/\bAndroid\b/, "Android"],
  [/\b(iPhone|iPad|iPod)\b/, "iOS"],
  [/\bWindows\b/, "Windows"],
  [/\bMac OS X\b/, "macOS"],
  [/\bCrOS\b/, "ChromeOS"],
  [/\bLinux\b/, "Linux"],
];

/** A browser as its owner recognises it in a list; nothing more is kept of what it says about itself. */
export function deviceWords(userAgent: string | undefined): string {
  const find = (list: typeof browsers) => list.find(([pattern]) => pattern.test(userAgent ?? ""))?.[1];
  const browser = find(browsers) ?? "Another program";
  const system = find(systems);
  return system ? `${browser} on ${system}` : browser;
}
