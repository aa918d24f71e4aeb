/** What tells who a person is. Such a column is never shown and never kept. */
export type PrivateKind =
  | "name"
  | "date of birth"
  | "postcode"
  | "address"
  | "telephone number"
  | "e-mail address"
  | "health-service number";
