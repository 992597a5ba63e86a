import type { MarkdownRenderer } from "vitepress";

/** Every picture becomes a link to itself (theme/Enlarged.vue). */
export function enlargeable({ renderer }: MarkdownRenderer) {
  const { image } = renderer.rules;
  renderer.rules.image = (...args) => {
    const html = image?.(...args) ?? "";
    return html.replace(/^<img (.*)>$/, "<Enlarged $1></Enlarged>");
  };
}
