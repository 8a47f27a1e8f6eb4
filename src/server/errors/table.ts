/** Every error the server answers with: its HTTP status and what is told to the reader. */
export const errorTable = {
  badJson: { status: 400, sentence: "The request is not readable JSON." },
  badUpload: { status: 400, sentence: "The upload broke off or is not a form with one file." },
  badRequest: { status: 400, sentence: "The request cannot be read." },
  signInFirst: { status: 401, sentence: "Sign in first." },
  signInFailed: { status: 401, sentence: "This name and password do not belong together." },
  passkeyFailed: {
    status: 401,
    sentence: "This passkey was not accepted. Try again, or sign in with the password.",
  },
  passkeyNeeded: { status: 401, sentence: "This account asks for its passkey: confirm with that." },
  confirmItIsYou: {
    status: 401,
    sentence: "Confirm that it is you: this needs a sign-in of the last ten minutes.",
  },
  roleForbids: { status: 403, sentence: "Your account may not do this. The lead of the clinic can." },
  hostRefused: {
    status: 403,
    sentence: "The bench does not answer under this name. Open it at the address it was started with.",
  },
  originRefused: { status: 403, sentence: "Another page may not write into the record." },
  notFound: { status: 404, sentence: "There is nothing at this address." },
  noSuchPerson: { status: 404, sentence: "This person is not in the record." },
  noSuchAccount: { status: 404, sentence: "There is no such account in this clinic." },
  noSuchStoma: { status: 404, sentence: "This person has no such stoma in the record." },
  noSuchPhoto: { status: 404, sentence: "This person has no such photograph in the record." },
  pagesNotBuilt: {
    status: 404,
    sentence: "The bench's pages are not built: run npm run build, then start again.",
  },
  notSetUp: { status: 409, sentence: "The clinic is not set up yet: give its name and phone number first." },
  idReused: {
    status: 409,
    sentence: "This was saved before with other content. Look at what is there, then enter it anew.",
  },
  alreadyCorrected: {
    status: 409,
    sentence:
      "Somebody corrected this entry before you. Look at that correction, then correct it if need be.",
  },
  erased: {
    status: 409,
    sentence: "This person was erased on lawful request: nothing is written about them again.",
  },
  photoNotAgreed: {
    status: 409,
    sentence: "The person has not agreed that photographs are kept. Record their answer first.",
  },
  nameTaken: { status: 409, sentence: "Somebody else signs in with this name. Choose another." },
  lastLead: {
    status: 409,
    sentence: "The clinic would be left without a lead. Make somebody else lead first.",
  },
  lastWayIn: {
    status: 409,
    sentence: "This passkey is the only way in to this account. Set a password first.",
  },
  needsBoth: {
    status: 409,
    sentence: "Asking for both needs a password and a passkey. Add what is missing first.",
  },
  noPasskeysHere: {
    status: 409,
    sentence: "Passkeys need https, or this machine's own name, localhost: they do not work at this address.",
  },
  linkSpent: { status: 410, sentence: "This link was used already, or its time is over. Ask for a new one." },
  tooLarge: { status: 413, sentence: "This is larger than the bench takes." },
  wrongType: { status: 415, sentence: "The bench takes JSON, or a form with a file." },
  refused: { status: 422, sentence: "Something in it is not right; nothing was kept." },
  whichStoma: { status: 422, sentence: "This person has several stomas: say whose changes are meant." },
  waitBeforeSignIn: {
    status: 429,
    sentence: "There were several failed tries. Wait a little, then try again.",
  },
  tooManyRequests: { status: 429, sentence: "Too many requests at once. Wait a minute and try again." },
  busy: {
    status: 503,
    sentence: "The record is being written to by another program. Try again in a moment.",
  },
  databaseAway: {
    status: 503,
    sentence: "The database does not answer just now. Try again in a moment; nothing is sent twice by it.",
  },
  diskFull: {
    status: 507,
    sentence:
      "The disk of the bench is full: nothing of this was kept, and nothing kept before is lost. Tell whoever runs it to free some space, then send it again.",
  },
  notWritable: {
    status: 503,
    sentence:
      "The bench may not write to its record just now: nothing of this was kept. Tell whoever runs it, then send it again.",
  },
  recordDamaged: {
    status: 503,
    sentence:
      "Part of the record on the bench's disk is damaged. Write nothing more, and tell whoever runs the bench: it is brought back from a backup with roundel restore.",
  },
  notAudited: {
    status: 503,
    sentence:
      "The bench cannot write down who looks at what just now, so it shows nothing. Tell whoever runs it.",
  },
  internal: {
    status: 500,
    sentence: "Something went wrong on the bench's side. Nothing of this request was kept.",
  },
} as const;

export type ErrorCode = keyof typeof errorTable;
