/** Builds one of the configurations into a folder, as a release does. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import webpack from "webpack";
import { afterAll, beforeAll } from "vitest";

export async function buildInto(path: string, name: "localsheet" | "excel"): Promise<void> {
  const configs = await (await import("../../webpack.config.mjs")).default({});
  const config = configs.find((each) => each.name === name);
  const compiler = webpack({ ...config, output: { ...config?.output, path } });
  await new Promise<void>((done, fail) =>
    compiler?.run((error, stats) => {
      const problem = error ?? stats?.compilation.errors[0];
      if (problem) fail(problem);
      else done();
    }),
  );
}

/** Builds before the tests of a file into a folder that is taken away after them. */
export function built(name: "localsheet" | "excel"): string {
  const folder = mkdtempSync(join(tmpdir(), `mistwright-${name}-`));
  beforeAll(() => buildInto(folder, name), 600_000);
  afterAll(() => rmSync(folder, { recursive: true }));
  return folder;
}
