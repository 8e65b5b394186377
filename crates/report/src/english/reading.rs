//! Wording of what is met while a site file and its catalogues are read, resolved and numbered.

use super::Words;

const fn words(code: &'static str, message: &'static str, label: &'static str, hint: &'static str) -> Words {
    Words { code, message, label, hint }
}

/// The wordings, by code.
pub const WORDS: &[Words] = &[
    words(
        "file-too-large",
        "the file is too large to read: {bytes} bytes, at most {limit}",
        "",
        "check that the path names a site or catalogue file",
    ),
    words(
        "nested-too-deeply",
        "brackets or dotted keys are nested more than {limit} deep",
        "here it gets too deep",
        "look for a bracket that is opened again and again",
    ),
    words("toml-syntax", "not valid TOML: {detail}", "here", ""),
    words(
        "duplicate-key",
        "\"{key}\" is defined twice",
        "defined again here",
        "rename one of the two, or remove it",
    ),
    words(
        "too-many-findings",
        "{count:further finding was counted but not listed|further findings were counted but not listed}",
        "",
        "mend those that are shown and run again",
    ),
    words(
        "too-many-tables",
        "the file has more than {limit} tables",
        "the first beyond",
        "check that it is a site or catalogue file; write small tables inline",
    ),
    words(
        "unknown-key",
        "the key \"{key}\" is not known< in {table}>",
        "not a key< of {table}>",
        "<did you mean {nearest:or}?><its keys are {choices}>",
    ),
    words(
        "missing-key",
        "the key \"{key}\" is missing< in {table}>< because of {because}>",
        "",
        "<add {key} = {expected}>",
    ),
    words("wrong-type", "\"{key}\" must be {expected}, not {found}", "must be {expected}", ""),
    words(
        "not-a-quantity",
        "\"{key}\" is not a number with a unit: \"{written}\"",
        "expected {expected}",
        "write a number and a unit in quotes",
    ),
    words(
        "unit-missing",
        "\"{key}\" has no unit: {written}",
        "expected {expected}",
        "write the number with one of these units, in quotes: {units}",
    ),
    words(
        "decimal-comma",
        "\"{key}\" has a comma in its number: \"{written}\"",
        "write a decimal point",
        "<write {suggestion:or}, in quotes>",
    ),
    words(
        "unknown-unit",
        "\"{unit}\" is not a unit for \"{key}\"",
        "expected {expected}",
        "<did you mean {nearest:or}? >accepted units: {units}",
    ),
    words(
        "wrong-unit",
        "\"{key}\" is given in a unit of {found}: \"{written}\"",
        "expected {expected}",
        "accepted units: {units}",
    ),
    words(
        "out-of-range",
        "\"{key}\" is outside the accepted range: {written}",
        "expected {expected}",
        "check the sign, the unit and the decimal point",
    ),
    words(
        "unknown-word",
        "\"{word}\" is not one of the choices for \"{key}\"",
        "choose {valid:or}",
        "<did you mean {nearest:or}?>",
    ),
    words("bad-name", "the name or text \"{name}\" cannot be used: {reason}", "{reason}", ""),
    words(
        "duplicate-name",
        "\"{name}\" is the name of two things: a {kind} and a {other_kind}",
        "this is the second",
        "rename one of them; runs refer to things by name alone",
    ),
    words(
        "duplicate-part",
        "the {kind} \"{name}\" is defined twice in the catalogues",
        "defined again here",
        "add replaces = true if this one is to take the other's place, or rename it",
    ),
    words(
        "replaces-nothing",
        "the {kind} \"{name}\" says that it replaces another, but there is none of that name",
        "replaces nothing",
        "check the name, or remove replaces = true",
    ),
    words(
        "unknown-name",
        "there is no {kind} named \"{name}\"",
        "no such {kind}",
        "<did you mean {nearest:or}?><there is {choices}>",
    ),
    words("wrong-kind-of-part", "\"{name}\" is {found}; {expected} is needed here", "must be {expected}", ""),
    words(
        "place-without-building",
        "\"{written}\" is not a place",
        "too few or too many parts",
        "write building, building/floor, building/core/floor, or outdoors",
    ),
    words(
        "port-needed",
        "the run starts at box {name} without saying at which port",
        "port missing",
        "write {name}.1 for its first port; it has {ports:port|ports}",
    ),
    words(
        "no-such-port",
        "box {name} has no port {port}",
        "no such port",
        "its ports are numbered 1 to {ports}",
    ),
    words(
        "port-used-twice",
        "port {port} is the start of two runs: {other_run} and {run}",
        "already taken by {other_run}",
        "use another port, or split the run with a branch box",
    ),
    words(
        "run-ends-at-port",
        "run {run} ends at {name}, which is a start, not a stop",
        "a port or supply",
        "cut the ring open at one section, or name the box alone to reach its input; rings are not solved",
    ),
    words(
        "not-isolating",
        "box {name} has no signal link: it is not an isolating box",
        "no such link",
        "name the box alone to reach its input",
    ),
    words(
        "length-missing",
        "run {run} has no lengths for its {sections:section|sections}",
        "",
        "give length for one section, lengths for each, or first and spacing",
    ),
    words(
        "lengths-do-not-fit",
        "run {run} has {lengths:length|lengths} for {sections:section|sections}",
        "{sections:length is|lengths are} needed",
        "give one length for each stop, in order",
    ),
    words(
        "lengths-given-twice",
        "the lengths of run {run} are given in more than one way: {keys}",
        "",
        "keep one of length, lengths, or first with spacing",
    ),
    words("run-without-stops", "run {run} leads nowhere", "empty", "name what it reaches, or remove the run"),
    words(
        "fed-twice",
        "{name} is reached twice: by run {other_run} and by run {run}",
        "reached again here",
        "remove one of the two; rings and dual feeds are not solved",
    ),
    words(
        "wiring-loop",
        "the wiring feeds itself in a loop: {members}",
        "in the loop",
        "cut the loop at one of these; rings are not solved",
    ),
    words(
        "not-wired",
        "no run reaches the {kind} {name}",
        "not wired",
        "add it to the \"to\" of a run that leads back to a supply",
    ),
    words(
        "isolating-box-without-supply",
        "the isolating box {name} has no supply on its input",
        "no supply",
        "add a run from a supply to {name}; its link passes signals only",
    ),
    words(
        "site-too-large",
        "the site is too large: entrances list more than {limit} dwellings in all",
        "",
        "divide the site",
    ),
    words("lock-given-twice", "{name} has both \"lock\" and \"locks\"", "", "keep one of the two"),
    words(
        "temperatures-out-of-order",
        "the temperatures are out of order: coldest {coldest}, usual {usual}, hottest {hottest}",
        "out of order",
        "",
    ),
    words("values-out-of-order", "\"{key}\" may not exceed \"{other_key}\"", "too large", ""),
    words(
        "address-out-of-range",
        "{element} would have {field} number {number}, but the family has {first} to {last}",
        "",
        "choose a number within the range",
    ),
    words(
        "address-reserved",
        "{element} has {field} number {number}, which the system keeps for itself",
        "reserved",
        "choose another number",
    ),
    words(
        "address-duplicate",
        "{element} has the same {field} number {number} as {other}",
        "the same number",
        "change one of the two",
    ),
    words(
        "address-not-expressible",
        "{element} has {field} number {number}, but its switches end at {highest}",
        "",
        "",
    ),
    words(
        "two-main-entrances",
        "{element} and {other} both claim to be the main entrance (number {number})",
        "a second main entrance",
        "make one of them secondary",
    ),
    words(
        "extension-without-room",
        "{element}: the dwelling has {stations:station|stations}, but the family can number {room}",
        "",
        "",
    ),
    words(
        "too-many-buildings",
        "the site has {buildings:building|buildings}, but the family can number {room}",
        "",
        "",
    ),
    words(
        "addresses-exhausted",
        "no {field} number is left for {element}: {first} to {last} are taken",
        "",
        "",
    ),
];
