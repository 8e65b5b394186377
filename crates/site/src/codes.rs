//! Every kind of finding that reading a site, resolving it and numbering its devices can make.
//!
//! The wording of messages belongs to the output formats; here stand the code, its severity, the
//! page that `explain` prints and the names of the arguments that a finding carries.

use latchline_finding::{Code, CodeDoc, Severity};

/// The page of a code, if it is one of this crate's.
pub fn explain(code: &str) -> Option<&'static CodeDoc> {
    CODES.iter().find(|doc| doc.code == code)
}

macro_rules! codes {
    ($($name:ident, $code:literal, $severity:ident, $title:literal, [$($argument:literal),*], $explanation:literal;)*) => {
        $(
            #[doc = $title]
            pub const $name: Code = Code($code);
        )*

        /// Every code of this crate.
        pub const CODES: &[CodeDoc] = &[$(
            CodeDoc {
                code: $name,
                severity: Severity::$severity,
                title: $title,
                explanation: $explanation,
            },
        )*];

        /// Names of the arguments that the findings of a code of this crate carry; those marked with `?` may be absent.
        pub fn arguments(code: Code) -> &'static [&'static str] {
            match code {
                $($name => &[$($argument),*],)*
                _ => &[],
            }
        }
    };
}

codes! {
    FILE_TOO_LARGE, "file-too-large", Error, "The file is too large to read", ["bytes", "limit"],
    "A site or catalogue file may have at most 8 MiB, which is some fifty thousand dwellings. A larger file is usually the wrong file.\n\nCheck that the path names a site or catalogue file.";

    TOO_MANY_TABLES, "too-many-tables", Error, "The file has too many table headers", ["count", "limit"],
    "At most ten thousand lines may begin with a bracket. Write dwellings and runs in one line each, as `A-1 = { place = \"A/1\" }` under one [dwellings], instead of one header for each.";

    NESTED_TOO_DEEPLY, "nested-too-deeply", Error, "Brackets or dotted keys are nested too deeply", ["limit"],
    "Arrays, inline tables and dotted keys may be nested 80 levels deep. No site needs more than four.\n\nLook for a bracket that was opened again and again, or for a dotted key that never ends.";

    TOML_SYNTAX, "toml-syntax", Error, "This is not valid TOML", ["detail"],
    "The file is written in TOML 1.1. The reader goes on after a mistake, so one missing quote or bracket can bring a second message on the next line; mend the first one first.\n\nExample: `length = \"14 m` lacks its closing quote. Write `length = \"14 m\"`.";

    DUPLICATE_KEY, "duplicate-key", Error, "The same name or key is defined twice", ["key"],
    "Within one table every name and key may stand once; otherwise nobody can say which of the two holds. Both places are shown.\n\nExample: two lines that begin with `A-101 =` under [dwellings]. Rename one or remove it.";

    TOO_MANY_FINDINGS, "too-many-findings", Error, "Further findings were counted but not listed", ["count"],
    "The list is cut after two thousand findings. Mend those that are shown and run again.";

    UNKNOWN_KEY, "unknown-key", Error, "This key is not known here", ["key", "table", "nearest", "valid", "choices?"],
    "Every key is checked, because a misspelt one that is silently ignored would leave its value out of the calculation.\n\nExample: `lenght = \"14 m\"` in a run. The nearest valid keys are shown; all of them are on the reference page.";

    MISSING_KEY, "missing-key", Error, "A key that must be there is missing", ["key", "table", "expected", "because?"],
    "Some values have no sensible default. `because` names the choice that makes the key necessary, such as the kind of a box.\n\nExample: a run without `to`. Add the key.";

    WRONG_TYPE, "wrong-type", Error, "The value has the wrong type", ["key", "table", "expected", "found"],
    "Text and quantities stand in quotes, counts and true/false do not, lists stand in square brackets.\n\nExample: `existing = \"yes\"`. Write `existing = true`.";

    NOT_A_QUANTITY, "not-a-quantity", Error, "This is not a number with a unit", ["key", "written", "expected"],
    "A quantity is a finite number and a unit, with or without a space between.\n\nExample: `length = \"about 14 m\"`. Write `length = \"14 m\"`.";

    UNIT_MISSING, "unit-missing", Error, "The unit is missing", ["key", "written", "expected", "units"],
    "A bare number does not say whether it means metres or feet. Plain numbers are accepted only where something is counted.\n\nExample: `length = 14`. Write `length = \"14 m\"`.";

    DECIMAL_COMMA, "decimal-comma", Error, "Write a decimal point, not a comma", ["key", "written", "expected", "suggestion"],
    "A comma may mean a decimal or a thousand, so it is refused, and what it may mean is shown.\n\nExample: `length = \"1,5 m\"`. Write `length = \"1.5 m\"`.";

    UNKNOWN_UNIT, "unknown-unit", Error, "This unit is not known", ["key", "written", "expected", "unit", "nearest", "units"],
    "Units are written as in the standards, and case matters: mW is not MW. The accepted units are shown.\n\nExample: `\"14 mtr\"`. Write `\"14 m\"`.";

    WRONG_UNIT, "wrong-unit", Error, "The unit measures something else", ["key", "written", "expected", "found", "units"],
    "The key wants another kind of quantity than the unit gives.\n\nExample: `length = \"14 V\"`. `found` says what the unit measures.";

    OUT_OF_RANGE, "out-of-range", Error, "The value lies outside the accepted range", ["key", "written", "expected"],
    "Ranges are wide: a value outside is negative, zero where that has no meaning, or a slip of unit or decimal point.\n\nExample: `length = \"0 m\"`, or `voltage = \"4800 V\"`.";

    UNKNOWN_WORD, "unknown-word", Error, "This word is not one of the choices", ["key", "word", "nearest", "valid"],
    "The key accepts a few words only; they are shown.\n\nExample: `feed = \"battery\"` at a lock.";

    BAD_NAME, "bad-name", Error, "This name or text cannot be used", ["name", "reason"],
    "Names and texts appear on drawings and labels, so they must not be empty, hold control characters, begin or end with a space, or be longer than 120 bytes; names of buildings, cores and floors must not hold `/`, which separates the parts of a place. `reason` is one of: empty, control-character, too-long, space-at-end, slash.";

    DUPLICATE_NAME, "duplicate-name", Error, "Two things on site have the same name", ["name", "kind", "other_kind"],
    "Supplies, boxes, entrances, dwellings and management stations share one set of names, because runs refer to them by name alone.\n\nExample: a dwelling A-1 and a branch box A-1. Rename one of them; both places are shown.";

    LOOK_ALIKE_NAME, "look-alike-name", Warning, "A name can be taken for another", ["name", "signs", "other?"],
    "Names are compared sign by sign. This one holds signs that nobody sees (zero width), letters of another script in a word of Latin letters (a Cyrillic А), or a dash or space that only looks like the usual one, so that on a label or in a message it reads like another name. `signs` gives them by their Unicode numbers; `other` is the name on site that it looks like.\n\nExample: `\"A\\u200B-1\"`. Type the name afresh, here and where it is used.";

    DUPLICATE_PART, "duplicate-part", Error, "A catalogue part is defined twice", ["name", "kind"],
    "Two catalogues define a part of the same name. If the later one is meant to take the place of the earlier, give it `replaces = true`; otherwise rename it. Both places are shown.";

    REPLACES_NOTHING, "replaces-nothing", Warning, "A part replaces nothing", ["name", "kind"],
    "The part says `replaces = true`, but no earlier catalogue has one of that name. Check its name, or remove the key.";

    UNKNOWN_NAME, "unknown-name", Error, "Nothing has this name", ["kind", "name", "nearest", "choices?"],
    "The value refers to something that is defined nowhere. `kind` says what was looked for: family, supply model, box model, station model, cable, lock model, accessory, building, floor, core, start of a run, stop of a run, or scope.\n\nExample: `cable = \"pair-08\"` where the catalogue has pair-0.8. The nearest names are shown.";

    WRONG_KIND_OF_PART, "wrong-kind-of-part", Error, "This part is of another kind", ["name", "found", "expected"],
    "The part exists, but cannot do this job.\n\nExample: the model of an indoor station as an entrance's door station, or a branch box under [distributors].";

    PLACE_WITHOUT_BUILDING, "place-without-building", Error, "A place has too few or too many parts", ["written"],
    "A place is \"building\", \"building/floor\", \"building/core/floor\" or \"outdoors\".\n\nExample: `place = \"A/North/1/left\"`.";

    PORT_NEEDED, "port-needed", Error, "A run that starts at a box must name the port", ["name", "ports"],
    "A box has several ports, and which of them a run hangs on decides its current limit and its place on the wiring schedule.\n\nExample: `from = \"D1\"`. Write `from = \"D1.1\"`.";

    NO_SUCH_PORT, "no-such-port", Error, "The box has no such port", ["name", "port", "ports"],
    "Ports count from 1 to the number that the catalogue gives.\n\nExample: `from = \"D1.5\"` of a box with four ports.";

    PORT_USED_TWICE, "port-used-twice", Error, "Two runs start at the same port", ["port", "run", "other_run"],
    "One port takes one run. To split a run use a branch box, or let the second run start from a station or box of the first. Both runs are shown.";

    RUN_ENDS_AT_PORT, "run-ends-at-port", Error, "A run cannot end at a port or supply", ["name", "run"],
    "Runs lead away from supplies and ports. A run that comes back to a port would close a ring, and rings are not solved: the current would divide between two ways.\n\nExample: `to = [\"A-1\", \"A-2\", \"D1.2\"]`. Cut the ring open at one section, or let the run end at the box's input by naming the box alone.";

    NOT_ISOLATING, "not-isolating", Error, "Only an isolating box has a signal link", ["name"],
    "`D1.link` is the signal link of an isolating box. Other boxes have one input, named by the box alone.";

    LENGTH_MISSING, "length-missing", Error, "The lengths of a run are not given", ["run", "sections"],
    "Without its lengths nothing can be said about a run. Give `length` for one section, `lengths` for each, or `first` and `spacing`.";

    LENGTHS_DO_NOT_FIT, "lengths-do-not-fit", Error, "The number of lengths does not fit the stops", ["run", "lengths", "sections"],
    "A run with three stops has three sections: to the first, from the first to the second, and so on.\n\nExample: `to = [\"A-1\", \"A-2\"], lengths = [\"9 m\"]`. Add the second length. `length` fits a run of one section only; use `lengths`, or `first` and `spacing`.";

    LENGTHS_GIVEN_TWICE, "lengths-given-twice", Error, "The lengths of a run are given in two ways", ["run", "keys"],
    "Use only one of `length`, `lengths`, and `first` with `spacing`.";

    RUN_WITHOUT_STOPS, "run-without-stops", Error, "A run leads nowhere", ["run"],
    "`to` is an empty list. Name what the run reaches, or remove the run.";

    FED_TWICE, "fed-twice", Error, "Something is reached by two runs", ["name", "run", "other_run"],
    "A station, the input of a box or a signal link is the stop of two sections. It would be fed from two sides; dual feeds and rings are not solved, because the current divides between the two ways. Both places are shown.\n\nRemove one of the two, or, if a second run goes on from a station, let it start there with `from`.";

    WIRING_LOOP, "wiring-loop", Error, "The wiring feeds itself in a loop", ["members"],
    "Followed from stop to start, these runs come back to where they began: nothing outside the loop feeds it, or a ring is closed. Rings are not solved.\n\nExample: D1.1 feeds D2 and D2.1 feeds D1. The members are named in order; cut the loop at one of them.";

    NOT_WIRED, "not-wired", Error, "No run reaches this", ["name", "kind"],
    "Every station and box must be the stop of a run that leads back to a supply, or it is dead.\n\nExample: a dwelling that was added without adding it to the `to` of a run.";

    ISOLATING_BOX_WITHOUT_SUPPLY, "isolating-box-without-supply", Error, "An isolating box has no supply", ["name"],
    "An isolating box passes only signals from its link; what hangs on its ports takes power from a supply on its input. No supply feeds that input.\n\nExample: add `A-D2-feed = { from = \"A-PS2\", to = \"A-D2\", ... }`.";

    SITE_TOO_LARGE, "site-too-large", Error, "The site is too large", ["limit"],
    "All entrances and management stations together would list more than the stated number of dwellings that they can call. No real site does; if yours does, divide it.";

    LOCK_GIVEN_TWICE, "lock-given-twice", Error, "Both `lock` and `locks` are given", ["name"],
    "Two ways to say the same thing would leave the order of the locks open, and the order decides which output opens which lock.\n\nUse `lock` for one lock, or `locks` for a list of them.";

    TEMPERATURES_OUT_OF_ORDER, "temperatures-out-of-order", Error, "The temperatures are out of order", ["coldest", "usual", "hottest"],
    "The coldest conductor temperature must not lie above the usual one, nor that above the hottest. Those that you leave out are 0 °C, 20 °C and 40 °C.";

    VALUES_OUT_OF_ORDER, "values-out-of-order", Error, "Two values contradict each other", ["key", "other_key"],
    "The first may not exceed the second: the first and last number of an address field, a turn-off and a turn-on voltage, a least and a highest voltage.";

    ADDRESS_OUT_OF_RANGE, "address-out-of-range", Error, "A number lies outside the family's range", ["field", "number", "first", "last"],
    "The family's address scheme has no such number.\n\nExample: dwelling number 120 where the scheme ends at 99. Choose a number within the range, or divide the dwellings between more buildings.";

    ADDRESS_RESERVED, "address-reserved", Error, "A number is reserved", ["field", "number"],
    "The system keeps this number for itself, so a device that has it would not be reached.\n\nChoose another number.";

    ADDRESS_DUPLICATE, "address-duplicate", Error, "Two devices are given the same number", ["field", "number", "other"],
    "Both would answer, or neither. The number was stated for both; change one of them. Both places are shown.";

    ADDRESS_NOT_EXPRESSIBLE, "address-not-expressible", Error, "The switches cannot show this number", ["field", "number", "highest"],
    "The number lies in the family's range but beyond what its switches or digits can show. The catalogue's address field is wrong, or the number needs another device.";

    TWO_MAIN_ENTRANCES, "two-main-entrances", Error, "Two entrances claim to be the main one", ["number", "other"],
    "In this family one number means the main entrance, and only one entrance can have it (one per building, where the scheme has a building field). Make the other one secondary.";

    EXTENSION_WITHOUT_ROOM, "extension-without-room", Error, "A dwelling has more stations than the family can number", ["stations", "room"],
    "The extension field has no number left for this station, so it could not be called apart from the others.\n\nTake an extension away, or choose another family.";

    TOO_MANY_BUILDINGS, "too-many-buildings", Error, "More buildings than the family can number", ["buildings", "room"],
    "The building field has no number left for this building, so its dwellings cannot be told from those of another.\n\nJoin buildings, or choose another family.";

    ADDRESSES_EXHAUSTED, "addresses-exhausted", Error, "No number is left", ["field", "first", "last"],
    "All numbers of the field are stated or taken, so this device cannot be told from another.\n\nDivide the site between more buildings, or choose a family with a wider range.";
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn codes_are_unique_kebab_case_and_explained() {
        let names: BTreeSet<_> = CODES.iter().map(|doc| doc.code.0).collect();
        assert_eq!(names.len(), CODES.len());
        for doc in CODES {
            assert!(doc.code.0.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'-'), "{}", doc.code);
            assert!(doc.explanation.len() > 60, "{}", doc.code);
            assert!(explain(doc.code.0).is_some_and(|found| found.title == doc.title));
        }
        assert!(explain("no-such-code").is_none());
    }
}
