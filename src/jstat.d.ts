/** The little of jstat that is used here: distribution functions. */
declare module "jstat" {
  const jstat: {
    studentt: { inv(p: number, degrees: number): number };
    chisquare: { cdf(x: number, degrees: number): number };
  };
  export default jstat;
}
