/** A list whose prices are texts, and calls that read them: cell by cell, whole, by a name, through an IF. */
export const PRICE_TEXTS: Record<string, string> = {
  ...{ A1: "'$6.00", A2: "12", A3: "'free", A4: "'6,50 $", B1: "0.5", B2: "0.5", C1: "4", C2: "8" },
  E1: "=MIST.ASKPRICE(A1,B1)",
  E2: "=MIST.ASKPRICE(A2,B1)",
  E3: "=MIST.ASKPRICE(A3,B1)",
  E4: '=MIST.ASKPRICE(IF(A4="","",A4),B1)',
  E5: '=MIST.FLOZCOST(A2,1,"floz",,A1)',
  E6: "=MIST.BOTTLECOST(1,B1:B2,A1:A2)",
  E7: "=MIST.BOTTLECOST(1,B1:B2,C1:C2)",
  E8: "=MIST.ASKPRICE(A2*2,B1)",
  E9: "=MIST.COSTDOUBT(B1,A1,A2)",
};

/** By hand: 6 and 12 at half, 6.5 at half; 12 and 6 over 1; halves of 6 and 12, of 4 and 8; 24 at half. */
export const PRICE_ANSWERS: Record<string, number> = {
  ...{ E1: 12, E2: 24, E4: 13, E5: 18, E6: 9, E7: 6, E8: 48 },
};
