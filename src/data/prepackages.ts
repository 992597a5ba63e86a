/**
 * What the average system of the European Union and the United Kingdom allows of filled packs.
 *
 * Seen in the text, November 2026: Directive 76/211/EEC, annex I 2.4 (rows to 1000) and annex II
 * 2.2, and SI 2006/659, schedule 2, 3.6, on legislation.gov.uk; all rows of the table, and that
 * percents are rounded up to a tenth of a gram or millilitre, on gov.uk (Packaged goods).
 */

/** Tolerable negative error by contents, g or mL, from 5 on: a part of them, or a fixed amount. */
export const TOLERABLE_ERRORS: readonly ({ upTo: number } & (
  { part: number } | { fixed: number }
))[] = [
  { upTo: 50, part: 0.09 },
  { upTo: 100, fixed: 4.5 },
  { upTo: 200, part: 0.045 },
  { upTo: 300, fixed: 9 },
  { upTo: 500, part: 0.03 },
  { upTo: 1000, fixed: 15 },
  { upTo: 10000, part: 0.015 },
];

/** Bottles weighed, short ones at which a batch is accepted, and at which it is rejected. */
export const SAMPLING_PLANS: readonly { weighed: number; accept: number; reject: number }[] = [
  { weighed: 20, accept: 1, reject: 2 },
  { weighed: 30, accept: 1, reject: 3 },
  { weighed: 50, accept: 2, reject: 5 },
  { weighed: 60, accept: 4, reject: 5 },
  { weighed: 80, accept: 3, reject: 7 },
  { weighed: 100, accept: 6, reject: 7 },
  { weighed: 160, accept: 8, reject: 9 },
];

/** Batches smaller than this are weighed whole, and so many of them may be short (SI 2006/659). */
export const WHOLE_BATCH = { below: 100, short: 0.05 };
