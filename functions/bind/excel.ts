/** The functions bundle of the Excel add-in. */
import { associate } from "./host.ts";
import { associateLate } from "./late.ts";
import { lateIds, list } from "./list.ts";

associate(CustomFunctions, list);
associateLate(CustomFunctions, lateIds, async () => {
  const { lateList } = await import(/* webpackChunkName: "functions-late" */ "./late-list.ts");
  return lateList;
});
