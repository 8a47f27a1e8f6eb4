export { ProtocolPage } from "./ProtocolPage.tsx";
