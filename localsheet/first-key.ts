/**
 * Which formula looks at which cell is written down when a change first asks for it; in a long
 * workbook a key would wait for that. It is done before, when nothing else is to be done.
 */
import { engine } from "./engine.ts";

const NAME = "evaluation";
const plugins = engine.registries.coreViewsPluginRegistry;
const Evaluation = plugins.get(NAME);

class ReadyEvaluation extends Evaluation {
  // The engine's types keep them private.
  declare shouldRebuildDependenciesGraph: boolean;
  declare evaluator: { formulaDependencies: () => unknown };

  override finalize() {
    const isNew = this.shouldRebuildDependenciesGraph;
    super.finalize();
    // Safari has no such call, and where there is no page nobody waits.
    if (isNew && "requestIdleCallback" in globalThis)
      requestIdleCallback(() => this.evaluator.formulaDependencies());
  }
}

plugins.replace(NAME, ReadyEvaluation);
