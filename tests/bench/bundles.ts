/** Kilobytes of what Excel loads, after gzip, and what the functions take to start; as built into dist/excel. */
import { readFileSync } from "node:fs";
import { Script } from "node:vm";
import { gzipSync } from "node:zlib";
import { type Case, plainly } from "./measure";

const read = (name: string) => readFileSync(`dist/excel/${name}`, "utf8");
const kilobytes = (name: string) => plainly(gzipSync(read(name)).length / 1000);

export const bundles: Record<string, Case> = {
  "kB after gzip": {
    beside: "20 kB",
    goal: { "functions.js": 1, "taskpane.js": 2.5 },
    runs: 1,
    other: 20,
    ours: () => ({
      "functions.js": kilobytes("functions.js"),
      "taskpane.js": kilobytes("taskpane.js"),
    }),
  },
  "start-up": {
    beside: "10 ms",
    goal: 1,
    runs: 5,
    other: 10,
    ours: () => {
      const text = read("functions.js");
      const noted: string[] = [];
      const CustomFunctions = { associate: (id: string) => noted.push(id), Error };
      // What the bundle asks of a page; without a document, the part that is loaded later stays away.
      Object.assign(globalThis, { CustomFunctions, self: globalThis });
      const [start, began] = [process.cpuUsage(), performance.now()];
      new Script(text).runInThisContext();
      const { user, system } = process.cpuUsage(start);
      if (noted.length === 0) throw new Error("no function was registered");
      return {
        "functions.js": { cpu: (user + system) / 1000, wall: performance.now() - began },
      };
    },
  },
};
