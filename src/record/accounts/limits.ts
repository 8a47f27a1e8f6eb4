const second = 1000;
const minute = 60 * second;
const hour = 60 * minute;
const day = 24 * hour;

/**
 * How long a session lasts.
 * @source NIST SP 800-63B (revision 3) 4.2.3, level AAL2: 30 minutes without activity, 12 hours in all; quoted from
 * memory. The other values have no source.
 */
export const sessionLimits = {
  idleMs: 30 * minute,
  absoluteMs: 12 * hour,
  /** A secret is exchanged for another this often. */
  rotateMs: hour,
  /** A page's other requests may still be under way with the secret before. */
  graceMs: 30 * second,
  /** What is done with a recent sign-in only. */
  strongMs: 10 * minute,
  /** Being seen is written down this often at most: every write waits for the disk. */
  seenMs: minute,
};

/** How long one-time links and challenges hold. No source; short enough to hand over in person. */
export const linkLimits = {
  setUpMs: day,
  joinMs: 7 * day,
  recoverMs: day,
  challengeMs: 5 * minute,
};

/** The browser that a person signed in with before is known this long. 400 days is the longest a browser keeps a cookie. */
export const deviceMs = 400 * day;

/** Failed sign-ins are forgotten this long after the last of them. */
export const throttleForgetMs = day;
