/**
 * Lends the runtime a scheduler of ours. It looks for `requestAnimationFrame` once, while it
 * loads, and would compute by animation frames for ever after: they stop in a hidden tab and
 * cost up to 16 ms. So this module, loaded before it, puts a microtask under that name, and
 * `takeBack`, called right after it has loaded, puts back what was there.
 */
const name = "requestAnimationFrame";
const own = Object.getOwnPropertyDescriptor(globalThis, name);

Object.defineProperty(globalThis, name, {
  value: (compute: () => void) => queueMicrotask(() => compute()),
  configurable: true,
  writable: true,
});

export function takeBack(): void {
  if (own === undefined) Reflect.deleteProperty(globalThis, name);
  else Object.defineProperty(globalThis, name, own);
}
