import { reportFonts } from "../../report/report-fonts.ts";

/** The faces of page and report are the same, and lie in the file once: the program sets them. */
const faces = document.createElement("style");
faces.textContent = reportFonts;
document.head.append(faces);
