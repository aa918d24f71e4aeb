/**
 * Pseudonyms by a secret key: HMAC with SHA-256 (RFC 2104, FIPS 180-4), worked out by the
 * platform. Who has the key and a patient's number can work out the code; who has only the code
 * can do nothing with it, however many numbers they try.
 */

/** Letters and digits without those that are mistaken for one another (I, L, O, U). */
const signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
/** Signs of a code: 60 bits. Among a million patients two codes agree once in two million files. */
const codeLength = 12;

/**
 * The codes of the given patients by a secret, as a function for reading cases: the same patient
 * and secret give the same code in every file. Asked for a patient who was not given, it throws:
 * give it all that `patientsIn` finds in the files to be read.
 */
export async function pseudonymsWithKey(
  secret: Uint8Array,
  patients: Iterable<string>,
): Promise<(patient: string) => string> {
  const algorithm = { name: "HMAC", hash: "SHA-256" };
  const bytes = Uint8Array.from(secret);
  const key = await crypto.subtle.importKey("raw", bytes, algorithm, false, ["sign"]);
  const encoder = new TextEncoder();
  const distinct = [...new Set(patients)];
  const codes = await Promise.all(
    distinct.map(async (patient) => {
      const signed = await crypto.subtle.sign("HMAC", key, encoder.encode(patient));
      return [patient, codeFrom(new Uint8Array(signed))] as const;
    }),
  );
  const byPatient = new Map(codes);
  return (patient) => {
    const code = byPatient.get(patient);
    if (code === undefined) throw new Error("a patient without a code: not among those given");
    return code;
  };
}

/** "7K3M-0QXV-9D2P": the first 60 bits, five a sign. */
function codeFrom(bytes: Uint8Array): string {
  let code = "";
  for (let i = 0; i < codeLength; i++) {
    const bit = i * 5;
    const pair = (bytes[bit >> 3]! << 8) | bytes[(bit >> 3) + 1]!;
    if (i > 0 && i % 4 === 0) code += "-";
    code += signs[(pair >> (11 - (bit & 7))) & 31];
  }
  return code;
}
