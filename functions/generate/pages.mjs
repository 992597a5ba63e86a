// The guides and the reference as pages, from the same Markdown that is read in the repository.
import { Marked } from "marked";

const STYLE = `
  :root { color-scheme: light dark; }
  body { max-width: 46rem; margin: 0 auto; padding: 1rem 1.25rem 3rem; color: CanvasText; background: Canvas; font: 16px/1.55 "Segoe UI", system-ui, -apple-system, sans-serif; }
  .wide { overflow-x: auto; }
  table { border-collapse: collapse; }
  th, td { padding: 0.3rem 0.6rem; border: 1px solid #8a9694; text-align: left; vertical-align: top; }
  code { font-family: Consolas, Menlo, "DejaVu Sans Mono", monospace; font-size: 0.9em; overflow-wrap: anywhere; }
  a, a:visited { color: #1d5c63; }
  @media (prefers-color-scheme: dark) { a, a:visited { color: #8fcfd4; } }
  @media (forced-colors: active) { a, a:visited { color: LinkText; } }
  img { max-width: 100%; }
  pre { padding: 0.6rem 0.8rem; border: 1px solid #8a9694; border-radius: 4px; overflow-x: auto; }
`;

/** What may be wider than the page: a keyboard scrolls it, too. */
const wide = (html) =>
  html
    .replaceAll(/<table>[^]*?<\/table>/g, '<div class="wide" tabindex="0">$&</div>')
    .replaceAll("<pre>", '<pre tabindex="0">');

/** Links between the guides lead to their pages; those to elsewhere stay. */
const marked = new Marked({
  walkTokens: (token) => {
    if (token.type !== "link" || /^\w+:/.test(token.href)) return;
    token.href = token.href.replace(/\.md(?=$|#)/, ".html");
  },
});

const escaped = (text) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");

/** A guide as a page that needs nothing else. */
export function helpPage(markdown) {
  const text = String(markdown);
  const title = /^# (.+)$/m.exec(text)?.[1] ?? "Mistwright";
  return `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>${escaped(title)} - Mistwright</title>
    <style>${STYLE}</style>
  </head>
  <body>
    <main>
${wide(marked.parse(text))}
    </main>
  </body>
</html>
`;
}
