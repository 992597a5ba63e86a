/**
 * Microsoft's own client script, as Excel on the web loads it, run in Node: loads, syncs, and what becomes of
 * objects after a batch that failed, are the real thing. Only what lies behind it, Excel, is ours.
 *
 * Its licence allows use for design, development and test; nothing of it is shipped.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { createContext, runInContext } from "node:vm";

/** An answer to a request: what the client asks for, as its own text. */
export type Execute = (body: string) => string;

export interface Client {
  Excel: typeof Excel;
  OfficeExtension: typeof OfficeExtension;
  /** Where requests go from now on. */
  answer(execute: Execute): void;
  /** What Excel supports, and the document, from now on. */
  setContext(context: object): void;
}

interface Loaded {
  Excel: typeof Excel;
  OfficeExtension: typeof OfficeExtension;
  OSF: { DDA: { RichApi: Record<string, unknown> } };
}

let loaded: Client | undefined;

export function officeClient(): Client {
  return (loaded ??= load());
}

function load(): Client {
  const path = createRequire(import.meta.url).resolve(
    "@microsoft/office-js/dist/excel-web-16.00.debug.js",
  );
  const page = pageOf();
  runInContext(readFileSync(path, "utf8"), createContext(page), { filename: path });
  const { Excel, OfficeExtension, OSF } = page as unknown as Loaded;
  let execute: Execute = () => "{}";
  // Where what happens in a sheet would be told from.
  OSF.DDA.RichApi.richApiMessageManager = { register: () => Promise.resolve() };
  OSF.DDA.RichApi.executeRichApiRequestAsync = (
    message: unknown[],
    told: (result: unknown) => void,
  ) => {
    // Later, as the answer of a host comes.
    queueMicrotask(() => {
      try {
        told({ status: "succeeded", value: { data: [200, [], execute(String(message[4]))] } });
      } catch (error) {
        // A mistake of the small Excel, which must not pass for an answer.
        told({ status: "failed", error: { code: 5001, message: (error as Error).stack } });
      }
    });
  };
  const office = page.Office as object;
  return {
    Excel,
    OfficeExtension,
    answer: (next) => void (execute = next),
    setContext: (context) => {
      page.Office = Object.create(office, { context: { value: context } });
    },
  };
}

/** As much of a page as the script looks at; with our own errors and lists, so that they are the same kind. */
export function pageOf(): Record<string, unknown> {
  const nothing = () => undefined;
  const location = { href: "https://localhost/", search: "", hash: "" };
  const page: Record<string, unknown> = {
    ...{ console, setTimeout, clearTimeout, Promise, JSON, Object, Array, Error },
    ...{ location, navigator: { userAgent: "node" }, addEventListener: nothing },
    sessionStorage: { getItem: () => null, setItem: nothing, removeItem: nothing },
    document: {
      getElementsByTagName: () => [],
      createElement: () => ({}),
      addEventListener: nothing,
      cookie: "",
      location,
    },
  };
  return Object.assign(page, { window: page, self: page });
}
