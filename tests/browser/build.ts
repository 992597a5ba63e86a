/** Builds one of the configurations into a folder, as a release does. */
import webpack from "webpack";

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
