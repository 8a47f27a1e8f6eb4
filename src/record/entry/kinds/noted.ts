import { z } from "zod";

export const notedBody = z.strictObject({ text: z.string().trim().min(1).max(10_000) });
