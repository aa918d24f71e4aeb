import casesText from "../../data-demo/repairs.csv?raw";
import notebookText from "../../notebooks/demo.md?raw";
import "./look/bundled-faces.ts";
import "./look/page.css";
import "./book/holdfast-book.ts";
import { WorkerHost } from "./host/worker-host.ts";
import HostWorker from "./worker.ts?worker&inline";

/** The notebooks that the cases and the departments in the page answer. */
const shipped = import.meta.glob<string>(
  ["../../notebooks/*.md", "!../../notebooks/retinopathy.md"],
  { query: "?raw", import: "default", eager: true },
);

const departments = import.meta.glob<string>("../../data-demo/departments/*.json", {
  query: "?raw",
  import: "default",
  eager: true,
});

const book = document.querySelector("holdfast-book");
if (book === null) throw new Error("the page has no holdfast-book");
void book.open(new WorkerHost(new HostWorker()), {
  notebook: { name: "demo.md", text: notebookText },
  cases: { name: "repairs.csv", text: casesText },
  departments: named(departments),
  shipped: named(shipped),
});

function named(files: Readonly<Record<string, string>>) {
  return Object.entries(files).map(([path, text]) => ({
    name: path.slice(path.lastIndexOf("/") + 1),
    text,
  }));
}
