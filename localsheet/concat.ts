/** CONCAT takes any number of texts and ranges in other programs' files; the engine's takes two. */
import { engine } from "./engine.ts";

const functions = engine.registries.functionRegistry;
const { compute, args } = functions.get("CONCATENATE");

functions.replace("CONCAT", { ...functions.get("CONCAT"), args, compute });
