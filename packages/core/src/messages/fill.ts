/** Puts what it says in the place of `{name}`. */
export function fill(text: string, parts: Readonly<Record<string, string | number>>): string {
  return text.replaceAll(/\{(\w+)\}/g, (_, name: string) => String(parts[name] ?? ''));
}
