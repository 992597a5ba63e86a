// The guides and the reference as pages, from the same Markdown that is read in the repository.
import { Marked } from "marked";

const STYLE = `
  :root { color-scheme: light dark; }
  body { max-width: 46rem; margin: 0 auto; padding: 1rem 1.25rem 3rem; font: 16px/1.55 "Segoe UI", system-ui, -apple-system, sans-serif; }
  table { display: block; overflow-x: auto; border-collapse: collapse; }
  th, td { padding: 0.3rem 0.6rem; border: 1px solid #8a9694; text-align: left; vertical-align: top; }
  code { font-family: Consolas, Menlo, "DejaVu Sans Mono", monospace; font-size: 0.9em; overflow-wrap: anywhere; }
  img { max-width: 100%; }
  pre { padding: 0.6rem 0.8rem; border: 1px solid #8a9694; border-radius: 4px; overflow-x: auto; }
`;

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
${marked.parse(text)}
  </body>
</html>
`;
}
