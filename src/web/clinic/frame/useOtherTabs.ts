import { useQueryClient } from "@tanstack/react-query";
import { useEffect } from "react";
import { hearTabs, leave, useLookAgain } from "../../shared/api/index.ts";

/** Tabs share the cookie: who signs in or out in one does so in all. */
export function useOtherTabs(): void {
  const queries = useQueryClient();
  const look = useLookAgain();
  useEffect(
    () =>
      hearTabs((news) => {
        if (news.event === "left") leave(queries, news.accountId);
        else void look();
      }),
    [queries, look],
  );
}
