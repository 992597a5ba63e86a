/** How what is typed or pasted is read, and where a doubt about it is said. */
import { type Language, languageOf } from "./language.ts";

/** Set by the page before the editor is made, since the engine makes it. */
export const composing: { doubt: (text?: string) => void; language: Language } = {
  doubt: () => undefined,
  language: languageOf("en-US"),
};
