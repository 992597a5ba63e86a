/** The little of jstat that is used here: distribution functions. */
declare module "jstat" {
  export const studentt: { inv(p: number, degrees: number): number };
  export const chisquare: { cdf(x: number, degrees: number): number };
}
