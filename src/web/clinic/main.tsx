import "./links/token.ts";
import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "../shared/ui/base.css";
import { QueryClientProvider } from "@tanstack/react-query";
import { RouterProvider } from "@tanstack/react-router";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { benchQueries } from "../shared/api/index.ts";
import { router } from "./routes.tsx";

const queries = benchQueries();

createRoot(document.getElementById("bench")!).render(
  <StrictMode>
    <QueryClientProvider client={queries}>
      <RouterProvider router={router} />
    </QueryClientProvider>
  </StrictMode>,
);
