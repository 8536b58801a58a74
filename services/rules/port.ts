/** What other services may ask of rules in the same process. */
export interface RulesPort {
  /** New readings are stored: assess soon. Cheap; many nudges become one pass. */
  nudge(): void;
}
