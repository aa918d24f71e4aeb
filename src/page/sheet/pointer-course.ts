/** What is done along a press; of `letGo` and `leave` one is called, once. */
export interface PointerCourse {
  travel(event: PointerEvent): void;
  letGo(): void;
  /** The pointer was taken away, or Escape was pressed: as if it had never been pressed. */
  leave(): void;
}

/** Follows a pressed pointer to the end of its press. What is returned stops following it. */
export function followPointer(course: PointerCourse): () => void {
  const over = new AbortController();
  const follow = <K extends keyof WindowEventMap>(
    name: K,
    heard: (event: WindowEventMap[K]) => void,
  ) => window.addEventListener(name, heard, { capture: name === "keydown", signal: over.signal });
  const end = (how: () => void) => {
    over.abort();
    how();
  };
  follow("pointermove", (event) => course.travel(event));
  follow("pointerup", () => end(() => course.letGo()));
  follow("pointercancel", () => end(() => course.leave()));
  follow("keydown", (event) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    end(() => course.leave());
  });
  return () => over.abort();
}

/** Milliseconds after a finger is lifted within which its click comes, if it comes at all. */
const clickComesWithin = 700;

/**
 * Calls `done` once a press and the click that it makes are over, so that nothing moves under a
 * finger before its tap has reached what it was meant for: of a touch, the click comes some time
 * after the finger was lifted. A press that became scrolling is `taken`.
 */
export function whenPressed(done: (how: "pressed" | "taken") => void): void {
  const over = new AbortController();
  const options = { capture: true, signal: over.signal };
  const end = (how: "pressed" | "taken") => {
    if (over.signal.aborted) return;
    over.abort();
    done(how);
  };
  const pressed = () => setTimeout(() => end("pressed"));
  window.addEventListener("pointercancel", () => end("taken"), options);
  window.addEventListener("click", pressed, options);
  window.addEventListener(
    "pointerup",
    ({ pointerType }) => {
      if (pointerType === "mouse") pressed();
      else setTimeout(() => end("pressed"), clickComesWithin);
    },
    options,
  );
}
