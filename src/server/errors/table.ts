/** Every error the server answers with: its HTTP status and what is told to the reader. */
export const errorTable = {
  badJson: { status: 400, sentence: "The request is not readable JSON." },
  badUpload: { status: 400, sentence: "The upload broke off or is not a form with one file." },
  badRequest: { status: 400, sentence: "The request cannot be read." },
  hostRefused: {
    status: 403,
    sentence: "The bench does not answer under this name. Open it at the address it was started with.",
  },
  originRefused: { status: 403, sentence: "Another page may not write into the record." },
  notFound: { status: 404, sentence: "There is nothing at this address." },
  noSuchPerson: { status: 404, sentence: "This person is not in the record." },
  noSuchStoma: { status: 404, sentence: "This person has no such stoma in the record." },
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
  tooLarge: { status: 413, sentence: "This is larger than the bench takes." },
  wrongType: { status: 415, sentence: "The bench takes JSON, or a form with a file." },
  refused: { status: 422, sentence: "Something in it is not right; nothing was kept." },
  whichStoma: { status: 422, sentence: "This person has several stomas: say whose changes are meant." },
  tooManyRequests: { status: 429, sentence: "Too many requests at once. Wait a minute and try again." },
  busy: {
    status: 503,
    sentence: "The record is being written to by another program. Try again in a moment.",
  },
  internal: {
    status: 500,
    sentence: "Something went wrong on the bench's side. Nothing of this request was kept.",
  },
} as const;

export type ErrorCode = keyof typeof errorTable;
