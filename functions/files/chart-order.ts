/**
 * The order of a chart's parts, which programs insist on. From memory of ECMA-376 part 1, 21.2, and
 * held by Microsoft's validator in a test.
 */
import { type Element, childrenNamed, drop, elements } from "./package.ts";

const SERIES =
  "idx order tx spPr invertIfNegative pictureOptions marker explosion dPt dLbls trendline errBars cat val xVal yVal smooth shape bubbleSize bubble3D extLst";
const AXIS =
  "axId scaling delete axPos majorGridlines minorGridlines title numFmt majorTickMark minorTickMark tickLblPos spPr txPr crossAx crosses crossesAt auto lblAlgn lblOffset noMultiLvlLbl baseTimeUnit crossBetween majorUnit minorUnit dispUnits extLst";
const PLOT =
  "scatterStyle radarStyle barDir grouping varyColors ser dLbls gapWidth overlap serLines dropLines hiLowLines upDownBars marker smooth firstSliceAng holeSize axId extLst";

const ORDERS: Record<string, string[]> = Object.fromEntries(
  Object.entries({
    chartSpace:
      "date1904 lang roundedCorners AlternateContent style clrMapOvr pivotSource protection chart spPr txPr externalData printSettings userShapes extLst",
    chart:
      "title autoTitleDeleted pivotFmts view3D floor sideWall backWall plotArea legend plotVisOnly dispBlanksAs extLst",
    title: "tx layout overlay spPr txPr extLst",
    legend: "legendPos legendEntry layout overlay spPr txPr extLst",
    plotArea:
      "layout areaChart barChart lineChart scatterChart radarChart pieChart doughnutChart bubbleChart catAx valAx dateAx serAx dTable spPr extLst",
    dLbls:
      "dLbl delete numFmt spPr txPr dLblPos showLegendKey showVal showCatName showSerName showPercent showBubbleSize separator showLeaderLines leaderLines extLst",
    trendline:
      "name spPr trendlineType order period forward backward intercept dispRSqr dispEq trendlineLbl extLst",
    scaling: "logBase orientation max min extLst",
    ser: SERIES,
    ...Object.fromEntries(["catAx", "valAx", "dateAx", "serAx"].map((name) => [name, AXIS])),
    ...Object.fromEntries(
      [
        "areaChart",
        "barChart",
        "lineChart",
        "scatterChart",
        "radarChart",
        "pieChart",
        "doughnutChart",
      ].map((name) => [name, PLOT]),
    ),
  }).map(([name, order]) => [name, order.split(" ")]),
);

/** Puts the children of every element below one, and its own, into their order. */
export function orderChart(element: Element): void {
  for (const child of elements(element)) orderChart(child);
  // The engine says of every axis what only one of categories has.
  if (element.localName === "valAx") childrenNamed(element, "auto").forEach(drop);
  const order = ORDERS[element.localName ?? ""];
  if (!order || !element.namespaceURI?.endsWith("/chart")) return;
  const place = ({ localName }: Element) => {
    const found = order.indexOf(localName ?? "");
    return found < 0 ? order.length : found;
  };
  for (const child of elements(element).sort((a, b) => place(a) - place(b)))
    element.appendChild(child);
}
