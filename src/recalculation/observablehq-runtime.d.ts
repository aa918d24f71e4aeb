/** The part of @observablehq/runtime 6.0.1 that is used here; the package ships no types. */
declare module "@observablehq/runtime" {
  export interface Observer {
    /** Called when a computation of the variable begins. */
    pending?(): void;
    fulfilled?(value: unknown): void;
    rejected?(error: unknown): void;
  }

  export interface Variable {
    define(
      name: string,
      inputs: readonly string[],
      definition: (...inputs: never[]) => unknown,
    ): Variable;
    delete(): Variable;
  }

  export interface Module {
    variable(observer: Observer): Variable;
  }

  export class Runtime {
    constructor(builtins: null, global: (name: string) => unknown);
    module(): Module;
    dispose(): void;
  }
}
