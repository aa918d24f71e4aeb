/** Everything that a reading holds, as one text: whatever could be shown, kept or exported. */
export function everyText(reading: object): string {
  return JSON.stringify(reading, (_, value: unknown) => {
    if (value instanceof Map) return [...value];
    return value instanceof Set ? [...value] : value;
  });
}
