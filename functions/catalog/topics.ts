/** The topics, in the order that a person meets them. Each is a folder of src. */
import { keysOf } from "../../src/lists.ts";

/** What to keep in mind with the numbers of each: where the work can hurt someone, who decides. */
const CAUTIONS = {
  load: "A load that can be weighed is not one that may be used: the oil's certificate, for this kind of product, sets its limit.",
  measure:
    "Densities differ from batch to batch and with warmth: weigh a known volume of what you have.",
  blend:
    "Volumes are taken as additive; mixing can shrink or swell them a little. Keep flammable liquids away from flames while you mix.",
  spirit:
    "For pure ethanol and water only, as the OIML formula is. Strong alcohol is a highly flammable liquid: work without flames and sparks, with fresh air, and by the rules of your place on alcohol.",
  cost: "It is as complete as what you typed in: freight, samples, losses, fees and your own hours count too.",
  limits:
    "This is arithmetic, not a judgement. The safety data sheet, the oil's certificate, a laboratory's test, your local rules or a licensed person decides.",
  trial:
    "An estimate from few sniffs by few people: it tells what to try next, not what every customer will find. Try it on your own cloth and skin only as the supplier's safety data sheet allows.",
};

export type Topic = keyof typeof CAUTIONS;

/** The topics as a person is shown them. */
export const TOPIC_TITLES: Record<Topic, string> = {
  load: "Oil and base to weigh",
  measure: "Units, drops and fills",
  blend: "Mixing",
  spirit: "Alcohol",
  cost: "Costs and prices",
  limits: "Limits and labels",
  trial: "Trials of scent",
};

export const TOPICS = keysOf(CAUTIONS);

/** What to keep in mind with the numbers of a function. */
export function cautionOf({ topic }: { topic: Topic }): string {
  return CAUTIONS[topic];
}
