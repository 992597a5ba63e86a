/** Words that programmers of spreadsheets use, and makers do not. */
export const INNER =
  /\bzone\b|array formula|BAD_EXPR|\bMINUS\b|coerce|\bstring\b|\bboolean\b|\bnull\b|undefined|criteri(on|a)\b|odoo|\btoken\b|\barguments?\b|\bparameters?\b|\bspill(ed)?\b|\bdataset\b|non-empty matrix|mismatched|one-dimensional/i;
