import { criteria, scorecard } from "./spray-trial-log/scorecard.ts";
import { fadingParts } from "./spray-trial-log/fading.ts";
import { log } from "./spray-trial-log/log.ts";
import type { Template } from "../sheets/template.ts";

/** Hourly scores on cloth and in the air, their fading, and a scorecard. Demo data invented. */
export const template: Template = {
  title: "Spray trial log",
  use: "Blind hourly scores on cloth and in the room, how they fade, and which base wins how firmly.",
  words:
    "how long does it last, scent throw, blind test, testers, fade, wear off, longevity, score, compare scents, drying time, dry, wet, stain, fabric, cloth, smell, still there next day",
  step: 7,
  widths: [
    214, 112, 112, 74, 92, 92, 92, 92, 128, 96, 92, 92, 92, 58, 58, 58, 58, 58, 58, 58, 58, 58, 84,
    84, 84, 84, 84, 84, 84, 420,
  ],
  parts: [
    { text: "title", rows: ["Spray trial log"] },
    {
      text: "note",
      rows: [
        "Same load, sprays, distance, cloth, room, doors, fans. Blind codes: who smells does not know which is which.",
        "Fresh air and minutes of rest between samples, six at most. Score 0 to 10: 0 is nothing, 10 as strong as can be.",
        "A missed hour stays blank or gets a dash; a zero is: nothing smelled. The log is at the foot, and grows there.",
      ],
    },
    {
      text: "caution",
      rows: [
        "Try a hidden spot of cloth and wood. Air moving, no flame, not on skin. Pets, children out till dry.",
      ],
    },
    {
      gap: 1,
      name: "settings",
      apart: 2,
      fields: [
        { name: "least", label: "Least score above zero", demo: 1, note: "(0 to 10)" },
        { name: "weak", label: "Too weak at a score of", demo: 2, note: "(0 to 10)" },
        { name: "sprays", label: "Sprays on each sample (count)", demo: 3 },
        {
          name: "load",
          label: "Load of all samples (%)",
          demo: 0.05,
          format: "0.0%",
          limits: [0, 1],
        },
        {
          name: "filled",
          label: "Lines filled",
          formula: '=SUMPRODUCT(--({log.base:all}<>""))-1',
          format: "0",
        },
        {
          name: "counted",
          label: "Lines that have hours",
          formula: '=SUMPRODUCT(({log.base}<>"")*({log.counts}<>""))',
          format: "0",
          note: '=IF({filled}=0,"no line is filled yet",IF({filled}={counted},"every one","look beside the log"))',
        },
        {
          name: "longest",
          label: "Outlasting the hours counts as (h)",
          formula: '=IF(OR({filled}=0,COUNT({hours})=0),"",MAX({hours})+1)',
          format: "0",
        },
      ],
    },
    ...criteria,
    ...scorecard,
    ...fadingParts,
    ...log,
  ],
  charts: [
    {
      title: "Fade of the chosen line",
      kind: "lines",
      unit: "score (0 to 10)",
      labels: "{curve.hour}",
      series: [
        { name: "score", values: "{curve.score}" },
        { name: "fitted curve", values: "{curve.fit}" },
      ],
      over: "{picture}",
    },
  ],
  page: {
    landscape: true,
    heads: "log",
    columns: 1,
    sections: { begin: ["log.scores"], repeat: 1 },
    caution: "Air moving, no flame or spark, not on skin; keep pets and children away until dry.",
  },
};
