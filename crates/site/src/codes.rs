//! Every kind of finding that reading a site, resolving it and numbering its devices can make.
//!
//! What they say and the page that `explain` prints are in the crate of words; here stand the code, its severity and
//! the names of the arguments that a finding carries.

use latchline_finding::CodeDoc;

/// A code, if it is one of this crate's.
pub fn explain(code: &str) -> Option<&'static CodeDoc> {
    CODES.iter().find(|doc| doc.code == code)
}

latchline_finding::codes! {
    FILE_TOO_LARGE, "file-too-large", Error, ["bytes", "limit"];
    TOO_MANY_TABLES, "too-many-tables", Error, ["count", "limit"];
    NESTED_TOO_DEEPLY, "nested-too-deeply", Error, ["limit"];
    TOML_SYNTAX, "toml-syntax", Error, ["detail", "quoted?", "closing?"];
    DUPLICATE_KEY, "duplicate-key", Error, ["key", "wanted?"];
    TOO_MANY_FINDINGS, "too-many-findings", Error, ["count"];
    UNKNOWN_KEY, "unknown-key", Error, ["key", "table", "nearest", "valid", "choices?"];
    MISSING_KEY, "missing-key", Error, ["key", "table", "expected?", "because?", "head?", "lines?"];
    WRONG_TYPE, "wrong-type", Error, ["key", "table", "expected", "found", "written?", "bare?", "no_such_day?"];
    NOT_A_QUANTITY, "not-a-quantity", Error, ["key", "written", "expected", "suggestion?"];
    UNIT_MISSING, "unit-missing", Error, ["key", "written", "expected", "units"];
    DECIMAL_COMMA, "decimal-comma", Error, ["key", "written", "expected", "suggestion"];
    UNKNOWN_UNIT, "unknown-unit", Error, ["key", "written", "expected", "unit", "nearest", "units", "metres?", "one?"];
    WRONG_UNIT, "wrong-unit", Error, ["key", "written", "expected", "found", "units"];
    OUT_OF_RANGE, "out-of-range", Error, ["key", "written", "expected"];
    UNKNOWN_WORD, "unknown-word", Error, ["key", "word", "nearest", "valid"];
    BAD_NAME, "bad-name", Error, ["name", "reason"];
    DUPLICATE_NAME, "duplicate-name", Error, ["name", "kind", "other_kind", "wanted?"];
    FLOORS_UPSIDE_DOWN, "floors-upside-down", Warning, ["first", "last"];
    LOOK_ALIKE_NAME, "look-alike-name", Warning, ["name", "signs", "other?"];
    DUPLICATE_PART, "duplicate-part", Error, ["name", "kind"];
    REPLACES_NOTHING, "replaces-nothing", Warning, ["name", "kind"];
    PRICE_WITHOUT_PART, "price-without-part", Warning, ["name", "nearest"];
    CATALOGUE_NOT_READ, "catalogue-not-read", Error, ["path", "why"];
    UNKNOWN_NAME, "unknown-name", Error, ["kind", "name", "nearest", "choices?", "under?", "dwelling?", "stations?", "more?"];
    WRONG_KIND_OF_PART, "wrong-kind-of-part", Error, ["name", "found", "expected", "others?"];
    CALLS_DO_NOT_FIT, "calls-do-not-fit", Error, ["calls", "duration", "at_once", "most"];
    PLACE_WITHOUT_BUILDING, "place-without-building", Error, ["written"];
    PORT_NEEDED, "port-needed", Error, ["name", "ports"];
    NO_SUCH_PORT, "no-such-port", Error, ["name", "port", "ports"];
    PORT_USED_TWICE, "port-used-twice", Error, ["port", "run", "other_run"];
    RUN_ENDS_AT_PORT, "run-ends-at-port", Error, ["name", "run", "from?", "from_list?", "backwards?"];
    NOT_ISOLATING, "not-isolating", Error, ["name"];
    LENGTH_MISSING, "length-missing", Error, ["run", "sections?", "further?", "one_way?", "loop?", "joints?"];
    LENGTH_FROM_LOOP, "length-from-loop", Advice, ["run", "length", "cable", "loop", "sections?"];
    LENGTHS_DO_NOT_FIT, "lengths-do-not-fit", Error, ["run", "lengths", "sections"];
    LENGTHS_GIVEN_TWICE, "lengths-given-twice", Error, ["run", "keys"];
    RUN_WITHOUT_STOPS, "run-without-stops", Error, ["run"];
    FED_TWICE, "fed-twice", Error, ["name", "run", "other_run?", "twice_in?"];
    WIRING_LOOP, "wiring-loop", Error, ["members"];
    NOT_WIRED, "not-wired", Error, ["name", "kind"];
    ISOLATING_BOX_WITHOUT_SUPPLY, "isolating-box-without-supply", Error, ["name"];
    SITE_TOO_LARGE, "site-too-large", Error, ["limit"];
    LOCK_GIVEN_TWICE, "lock-given-twice", Error, ["name"];
    PART_CABLE_TWICE, "part-cable-twice", Error, ["name", "part"];
    DOOR_CONTACT_CABLE_TWICE, "door-contact-cable-twice", Warning, ["name"];
    CABLE_TO_NO_PART, "cable-to-no-part", Warning, ["name", "part"];
    TEMPERATURES_OUT_OF_ORDER, "temperatures-out-of-order", Error, ["coldest", "usual", "hottest"];
    REVISION_TWICE, "revision-twice", Warning, ["mark"];
    REVISIONS_OUT_OF_ORDER, "revisions-out-of-order", Warning, ["mark", "date", "other", "other_date"];
    LOAD_FALLS_IN_USE, "load-falls-in-use", Warning, ["key", "written", "standby"];
    VALUES_OUT_OF_ORDER, "values-out-of-order", Error, ["key", "other_key"];
    ADDRESS_OUT_OF_RANGE, "address-out-of-range", Error, ["field", "number", "first", "last"];
    ADDRESS_RESERVED, "address-reserved", Error, ["field", "number"];
    ADDRESS_DUPLICATE, "address-duplicate", Error, ["field", "number", "other"];
    ADDRESS_NOT_OF_NAME, "address-not-of-name", Advice, ["dwellings", "numbers"];
    ADDRESS_REPEATED, "address-repeated", Advice, ["buildings", "numbers"];
    ADDRESS_NOT_EXPRESSIBLE, "address-not-expressible", Error, ["field", "number", "highest"];
    TWO_MAIN_ENTRANCES, "two-main-entrances", Error, ["number", "other"];
    EXTENSION_WITHOUT_ROOM, "extension-without-room", Error, ["stations", "room"];
    TOO_MANY_BUILDINGS, "too-many-buildings", Error, ["buildings", "room"];
    ADDRESSES_EXHAUSTED, "addresses-exhausted", Error, ["field", "first", "last"];
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn codes_are_unique_and_in_kebab_case() {
        let names: BTreeSet<_> = CODES.iter().map(|doc| doc.code.0).collect();
        assert_eq!(names.len(), CODES.len());
        for doc in CODES {
            assert!(doc.code.0.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-'), "{}", doc.code);
            assert!(explain(doc.code.0).is_some_and(|found| found.code == doc.code));
        }
        assert!(explain("no-such-code").is_none());
    }
}
