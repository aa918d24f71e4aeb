/**
 * An identifier without what people vary in writing it: upper and lower case, and spaces around
 * and inside. "sm 0012" and "SM0012 " are one patient.
 */
export function patientIdentity(written: string): string {
  if (/^[0-9A-Z-]*$/.test(written)) return written;
  return written.normalize("NFKC").replaceAll(/\s+/g, "").toUpperCase();
}

/**
 * An identity without leading zeros, which spreadsheets lose: "0012" and "12" may be one patient,
 * and so may "SM0012" and "SM12".
 */
export function withoutLeadingZeros(identity: string): string {
  return identity.replace(/^(\D*)0+(?=\d)/, "$1");
}
