import { describe, expect, test } from "vitest";
import { dictionary } from "../../src/cases/dictionary.ts";
import { fieldBySpelling } from "../../src/cases/heading-spelling.ts";
import { privateByHeading } from "../../src/cases/privacy/private-heading.ts";
import type { PrivateKind } from "../../src/cases/privacy/private-kind.ts";

/** Headings as exports of hospitals write them (common practice, no source). */
const told: Readonly<Record<PrivateKind, string>> = {
  name: "Name|NAME|Patient Name|patientname|PatientName|patient_name|Pt name|Name of patient|Surname|Surname (maiden)|Forename(s)|First name|First Names|Last name 1|Full name|Initials|Patient initials|Next of kin|NOK|Next of kin (name)|Next of kin address|GP name|GP|GPName|Name of GP|Referrer's name|Vorname|Prénom|Title",
  "date of birth":
    "DOB|D.O.B.|dob|DOB dd/mm/yyyy|Date of birth|Date of Birth (dd/mm/yyyy)|date_of_birth|DateOfBirth|dateofbirth|Patient DOB|Birth date|birthdate|Born|Geburtsdatum|Date de naissance|Age / DOB",
  postcode:
    "Postcode|post code|Postcode of residence|Post code (home)|Zip|ZIP Code|PLZ|Code postal",
  address:
    "Address|Home Address 1|Address line 1|Address line 2|address1|homeAddress2|Patient's address|Address (home)|Full address|Town|City|Street|House number|GP practice|Straße",
  "telephone number":
    "Tel|Tel (home)|Tel. no.|telno|Telephone|Telephone (day time)|Mobile|Mobile no|Mobile no.|Home phone|Phone 2|phone_number|Contact number|Emergency contact|NOK tel|Telefon",
  "e-mail address":
    "Email|e-mail|E-Mail address|Patient e-mail|patientEmail|email 2|Email of carer",
  "health-service number":
    "NHS Number|NHS Number (10 digits)|NHS no.|NHSNumber|nhs_number|nhs|Patient NHS no|CHI|CHI number|Health card number|Medicare no|SSN|PPS No|BSN|Passport number|National ID|Fødselsnummer|Personnummer",
};

describe("headings of what tells who a person is", () => {
  test.each(
    Object.entries(told).flatMap(([kind, headings]) =>
      headings.split("|").map((heading) => [heading, kind]),
    ),
  )("%s: %s", (heading, kind) => {
    expect(privateByHeading(heading)).toBe(kind);
  });

  test.each(
    `named procedure|address of break|name of procedure|procedure name|drug name|site name|study name
    |hospital name|trade name of buckle|title of operation|phone follow up|telephone review|email sent to GP
    |GP letter sent|GP referral|contact lens|first contact|cell count|AC cells|mobile retina|mobile break
    |NHS or private|funded by the NHS|NHS site|chi square|birth weight|age at birth|country of birth
    |street drugs|mailing|insurance|insured|nick of sclera|telangiectasia|Coats telangiectasia|citywide
    |borne|bornholm|tele|hotel|maid|deprivation by postcode|identity|ident|passed|surnamed|born preterm
    |emailed|renamed|nomenclature|titles given|initial surgery|initial IOP|initial acuity|first line treatment
    |own choice|code|number|no|details|text|home|day|night|work|second eye|family history|family|carer at home
    |relative afferent pupil defect|next visit|patient|patient id|patient no|contact|relative position`
      .split(/\s*\|\s*/)
      .map((heading) => [heading]),
  )("%s: nothing", (heading) => {
    expect(privateByHeading(heading)).toBeUndefined();
  });

  /** Every spelling of every field, plain and as departments dress headings up. */
  const dressed = [
    (heading: string) => heading.toUpperCase(),
    (heading: string) => heading.replaceAll(" ", "_"),
    (heading: string) => `${heading} 2`,
    (heading: string) => `${heading} (first eye)`,
    (heading: string) => `Eye: ${heading}`,
    (heading: string) => `${heading} number`,
    (heading: string) => `patient ${heading}`,
  ];

  test.each(
    dictionary.map((field) => [field.name, [field.name, field.label, ...field.headings]] as const),
  )("no spelling of %s is taken for private", (_, spellings) => {
    // "surgeon name" is the surgeon, and coded; a second such column is somebody's name.
    const plain = spellings.filter((spelling) => !/\bname\b/.test(spelling));
    const all = [
      ...spellings,
      ...plain.flatMap((spelling) => dressed.map((dress) => dress(spelling))),
    ];
    const alarms = all.filter((heading) => privateByHeading(heading) !== undefined);
    expect(alarms).toEqual([]);
  });

  test("what the dictionary knows stays its own, whatever words it has", () => {
    expect(fieldBySpelling("surgeon name")?.name).toBe("surgeon");
    expect(privateByHeading("surgeon name")).toBeUndefined();
    expect(privateByHeading("assistant name")).toBe("name");
  });
});
