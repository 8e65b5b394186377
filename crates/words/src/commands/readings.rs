//! `readings`.

use crate::row::{sentences, words};

words! {
    /// Heads of what came back from site.
    pub enum ReadingsHead {
        Conflicts: "Two readings of one thing" | "Zwei Messwerte für eines",
        Exchanged: "Exchanged" | "Getauscht",
        Missing: "Missing" | "Es fehlen",
        NotEntered: "Flats not entered" | "Nicht betretene Wohnungen",
        OtherRevision: "Not of this plan, not judged" | "Nicht von diesem Plan, nicht beurteilt",
        OutOfRange: "Out of range" | "Außerhalb des Bereichs",
        Snags: "Snags" | "Mängel",
        WholeSite: "whole site" | "ganze Anlage",
        Open: "open" | "offen",
        Nobody: "nobody named" | "niemand genannt",
    }
}

sentences! {
    /// What `readings` says.
    pub enum ReadingsWords<'a> {
        Stand { site: &'a str, revision: &'a str, read: usize, asked: usize, done: usize, others: usize }:
            "{site}, revision {revision}: {read} of {asked} readings, {done} of {others} other steps have an entry."
            | "{site}, Stand {revision}: {read} von {asked} Messwerten, {done} von {others} anderen Schritten haben einen Eintrag.",
        Clean: "Every reading is there and within its range; no snag is open." | "Jeder Messwert ist da und in seinem Bereich; kein Mangel ist offen.",
        Judged { what: &'a str, value: &'a str, range: &'a str, by: &'a str }:
            "{what}: {value}, expected {range} ({by})"
            | "{what}: {value}, erwartet {range} ({by})",
        Between { least: &'a str, most: &'a str }: "{least} to {most}" | "{least} bis {most}",
        AtLeast { least: &'a str }: "at least {least}" | "mindestens {least}",
        AtMost { most: &'a str }: "at most {most}" | "höchstens {most}",
        And { one: &'a str, other: &'a str }: "{one} and {other}" | "{one} und {other}",
        Swapped { old: &'a str, fresh: &'a str, before: &'a str, after: &'a str, fault: &'a str }:
            "{old} by {fresh}; before {before}, after {after}; the fault: {fault}"
            | "{old} gegen {fresh}; davor {before}, danach {after}; der Fehler: {fault}",
        OfRevision { value: &'a str, revision: &'a str, by: &'a str }:
            "{value}, revision {revision} ({by})"
            | "{value}, Stand {revision} ({by})",
        NotTaken { file: &'a str, why: &'a str }: "\"{file}\" is not taken: {why}" | "„{file}“ wird nicht genommen: {why}",
        Clash { id: &'a str, file: &'a str, kept: &'a str, other: &'a str }:
            "entry {id} in \"{file}\" says {other} where an earlier file says {kept}; the earlier one is kept: ask who changed it"
            | "Eintrag {id} in „{file}“ sagt {other}, wo eine frühere Datei {kept} sagt; die frühere gilt: nachfragen, wer ihn geändert hat",
        WroteReadings { file: &'a str, count: usize, site: &'a str }:
            "wrote {file}: {count:reading|readings}; next: latchline locate {site} {file}"
            | "{file} geschrieben: {count:Messwert|Messwerte}; weiter mit: latchline locate {site} {file}",
        NoReadings { file: &'a str }:
            "{file} is not written: no reading is there that locate takes"
            | "{file} wird nicht geschrieben: Kein Messwert ist da, den locate nimmt",
        WroteMerged { file: &'a str, count: usize }:
            "wrote {file}: {count:entry|entries} for the phones to take back"
            | "{file} geschrieben: {count:Eintrag|Einträge} zum Einlesen auf den Telefonen",
    }
}
