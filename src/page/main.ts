import casesText from "../../data-demo/repairs.csv?raw";
import notebookText from "../../notebooks/demo.md?raw";
import "./look/bundled-faces.ts";
import "./look/page.css";
import "./book/holdfast-book.ts";
import { WorkerHost } from "./host/worker-host.ts";
import HostWorker from "./worker.ts?worker&inline";

/** The notebooks that the cases in the page answer. */
const shipped = import.meta.glob<string>(
  ["../../notebooks/*.md", "!../../notebooks/retinopathy.md", "!../../notebooks/pooled.md"],
  { query: "?raw", import: "default", eager: true },
);

const book = document.querySelector("holdfast-book");
if (book === null) throw new Error("the page has no holdfast-book");
void book.open(new WorkerHost(new HostWorker()), {
  notebook: { name: "demo.md", text: notebookText },
  cases: { name: "repairs.csv", text: casesText },
  shipped: Object.entries(shipped).map(([path, text]) => ({
    name: path.slice(path.lastIndexOf("/") + 1),
    text,
  })),
});
