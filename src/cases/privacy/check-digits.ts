/** Sum of the digits, each times its weight; digits beyond the weights do not count. */
export function weightedSum(digits: string, weights: readonly number[]): number {
  return weights.reduce((sum, weight, i) => sum + weight * Number(digits[i]), 0);
}

/** Whether the last digit is the check digit of the others by ISO/IEC 7812-1, annex B (Luhn). */
export function passesLuhn(digits: string): boolean {
  return (luhnSum(digits.slice(0, -1)) + Number(digits.at(-1))) % 10 === 0;
}

/** Sum of the digits' own digits, the last one and every second before it doubled. */
export function luhnSum(digits: string): number {
  const fromTheEnd = [...digits].reverse().map(Number);
  return fromTheEnd.reduce((sum, digit, i) => {
    const doubled = i % 2 === 0 ? digit * 2 : digit;
    return sum + (doubled > 9 ? doubled - 9 : doubled);
  }, 0);
}

/** Whether there is such a day in some year: two digits of each. */
export function couldBeDay(day: string, month: string): boolean {
  const [d, m] = [Number(day), Number(month)];
  return m >= 1 && m <= 12 && d >= 1 && d <= (m === 2 ? 29 : [4, 6, 9, 11].includes(m) ? 30 : 31);
}
