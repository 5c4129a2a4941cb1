/** Stands with every caution about a feed: no screen of ours clears one. */
export const WHO_DECIDES =
  "Whether a feed may be fed is for a laboratory, your veterinarian, the label and your extension service.";
