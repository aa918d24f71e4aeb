/**
 * Logic with a third value, missing (null), as in the truth tables of Kleene's strong logic
 * (S. C. Kleene, Introduction to Metamathematics, 1952, section 64), which the SQL standard
 * (ISO/IEC 9075-2) takes over for `unknown`.
 */
export type Truth = boolean | null;

/** False if either is false, else missing if either is missing. */
export function both(left: Truth, right: Truth): Truth {
  if (left === false || right === false) return false;
  return left === null || right === null ? null : true;
}

/** True if either is true, else missing if either is missing. */
export function either(left: Truth, right: Truth): Truth {
  if (left === true || right === true) return true;
  return left === null || right === null ? null : false;
}

/** Missing stays missing. */
export function opposite(truth: Truth): Truth {
  return truth === null ? null : !truth;
}
