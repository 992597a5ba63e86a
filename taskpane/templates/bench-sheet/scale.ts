/** What a scale can tell: readings within half a step of what was poured. */

/** Grams in one unit of the scale. */
export const PER = 'MIST.TURN(1,{unit},"g")';
export const HAS_SCALE = `ISNUMBER(${PER}),SUM({step})>0`;

/** The largest error allowed in an ingredient; 5 % where none is typed. */
export const ALLOWED = 'IF({tolerance}="",0.05,{tolerance})';

/** What stands under a column on the lines of these materials, and on how many there is something. */
const sum = (column: string, kinds: readonly string[]) =>
  `(${kinds.map((kind) => `SUMIFS({pours.${column}},{pours.what},"${kind}")`).join("+")})`;
const lines = (column: string, kinds: readonly string[]) =>
  `(${kinds.map((kind) => `COUNTIFS({pours.what},"${kind}",{pours.${column}},">=0")`).join("+")})`;

const OIL = ["fragrance oil"];
const REST = ["base", "wax"];
const HALF = "{step}/2";

/** True where something is not known of a line: what is worked out of all lines would leave it out. */
export const lacks = (column: string) =>
  `SUMPRODUCT(({pours.material}<>"")*(1-ISNUMBER({pours.${column}})))>0`;

/** What the load is a part of: all that was poured, or the base or wax alone. */
const byBasis = (finished: string, base: string) =>
  `IF({of}="finished",${finished},IF({of}="base",${base},""))`;

/** The load of what stands under a column, its least and its most: each weighing may be off by half a step. */
export function loadsOf(column: string) {
  const oil = sum(column, OIL);
  const rest = sum(column, REST);
  const all = `SUM({pours.${column}})`;
  const off = `${lines(column, OIL)}*${HALF}`;
  const restOff = `${lines(column, REST)}*${HALF}`;
  const otherOff = `(COUNT({pours.${column}})-${lines(column, OIL)})*${HALF}`;
  const least = `MAX(0,${oil}-${off})`;
  const most = `(${oil}+${off})`;
  const known = (formula: string) =>
    `=IF(OR(${lacks(column)},${all}<=0,SUM({step})<=0,${rest}<=0),"",${formula})`;
  return {
    load: known(byBasis(`${oil}/${all}`, `${oil}/${rest}`)),
    low: known(
      byBasis(`${least}/(${least}+${all}-${oil}+${otherOff})`, `${least}/(${rest}+${restOff})`),
    ),
    high: known(
      byBasis(
        `${most}/(${most}+MAX(0,${all}-${oil}-${otherOff}))`,
        `IF(${rest}>${restOff},${most}/(${rest}-${restOff}),"no end")`,
      ),
    ),
  };
}

/** The load that the recipe asks for. */
export const ASKED = `=IF(OR(${lacks("share")},${sum("share", REST)}<=0),"",${byBasis(sum("share", OIL), `${sum("share", OIL)}/${sum("share", REST)}`)})`;

/** From the low to the high, or the one figure where both are alike as shown. */
function from(which: "first" | "last", one = "", digits = '"0.0#%"') {
  const [low, high] = ["low", "high"].map((end) => `TEXT({loads.${end}:${which}},${digits})`);
  return `IF(ISNUMBER({loads.high:${which}}),IF(${low}=${high},"${one}"&${low},"from "&${low}&" to "&${high}),"from "&${low}&" to no end")`;
}
/** As many digits as tell the load that was poured from the one that was asked for. */
const TOLD_APART = `IF(OR(TEXT({loads.low:last},"0.0#%")=TEXT({asked},"0.0#%"),TEXT({loads.high:last},"0.0#%")=TEXT({asked},"0.0#%")),"0.0###%","0.0#%")`;

/** Whether the load can come out as planned on this scale. */
export const COARSE = `=IF(OR(NOT(ISNUMBER({loads.low:first})),SUM({asked})<=0),"",IF(IF(ISNUMBER({loads.high:first}),MAX({loads.high:first}-{asked},{asked}-{loads.low:first})<=${ALLOWED}*{asked}+0.000000001,FALSE),"fine enough: the load comes out "&${from("first", "at ")},"too coarse: the load can be "&${from("first")}&"; make "&TEXT(ROUNDUP(ROUND(MIST.LEASTBATCH(MINIFS({pours.share},{pours.what},"fragrance oil",{pours.share},">0"),{step},${ALLOWED}),6),0),"#,##0")&" "&{unit}&" or more, or take a finer scale"))`;

/** What the readings say of the load. */
export const VERDICT = `=IF(COUNT({pours.reading})=0,"no reading yet",IF({missing}>0,"readings are missing: "&{missing},IF(OR(NOT(ISNUMBER({loads.low:last})),{asked}=""),"",IF(AND({asked}>={loads.low:last}-0.000000001,{asked}<=SUM({loads.high:last})+0.000000001),"as the recipe, as far as this scale can tell","off: it is "&${from("last", "", TOLD_APART)}&", the recipe has "&TEXT({asked},"0.0#%")))))`;
