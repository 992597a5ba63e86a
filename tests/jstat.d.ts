/** The little of jstat that distribution functions are held against. */
declare module "jstat" {
  const jstat: {
    studentt: { inv(p: number, degrees: number): number };
    chisquare: { cdf(x: number, degrees: number): number };
  };
  export default jstat;
}
