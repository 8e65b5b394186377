//! What was built otherwise than planned.

use crate::row::sentences;

sentences! {
    /// What an entry of the as-built columns says against the plan.
    pub enum BuiltWords<'a> {
        LengthBeyond { cable: &'a str, laid: &'a str, planned: &'a str, allowed: &'a str }:
            "{cable}: {laid} laid, {planned} planned; the plan allows {allowed} more or less"
            | "{cable}: {laid} verlegt, {planned} geplant; der Plan lässt {allowed} mehr oder weniger zu",
        LengthWithin { cable: &'a str, laid: &'a str, planned: &'a str, allowed: &'a str }:
            "{cable}: {laid} laid, {planned} planned, within {allowed}"
            | "{cable}: {laid} verlegt, {planned} geplant, innerhalb von {allowed}",
        LengthUnread { cable: &'a str, written: &'a str }:
            "{cable}: \"{written}\" stands where the length belongs, and is none"
            | "{cable}: \"{written}\" steht, wo die Länge hingehört, und ist keine",
        TypeOther { cable: &'a str, laid: &'a str, planned: &'a str }:
            "{cable}: {laid} laid, {planned} planned"
            | "{cable}: {laid} verlegt, {planned} geplant",
        TypeUnknown { cable: &'a str, laid: &'a str, planned: &'a str }:
            "{cable}: {laid} laid, {planned} planned; no catalogue of this site has a cable of that name: put it under [cables] first"
            | "{cable}: {laid} verlegt, {planned} geplant; kein Katalog dieser Anlage hat ein Kabel dieses Namens: erst unter [cables] eintragen",
        TypeOfOneLength { cable: &'a str, laid: &'a str, planned: &'a str, run: &'a str }:
            "{cable}: {laid} laid, {planned} planned; run {run} has one cable for all its lengths: make two runs of it where the cable changes"
            | "{cable}: {laid} verlegt, {planned} geplant; Strang {run} hat ein Kabel für alle seine Längen: dort, wo das Kabel wechselt, zwei Stränge daraus machen",
        NotInThePlan { cable: &'a str, written: &'a str }:
            "{cable}: {written} laid; the plan states no cable there: give it a cable and a length at its entrance"
            | "{cable}: {written} verlegt; der Plan nennt dort kein Kabel: beim Zugang Kabel und Länge eintragen",
        AddressOther { device: &'a str, set: &'a str, planned: &'a str }:
            "{device}: set to {set}, planned {planned}; take it over only if it is to stay so, else set it right"
            | "{device}: eingestellt auf {set}, geplant {planned}; nur übernehmen, wenn es so bleiben soll, sonst richtig einstellen",
        AddressOfSeveral { device: &'a str, set: &'a str, planned: &'a str }:
            "{device}: set to {set}, planned {planned}; more than its own number differs: set it right, or number the building and its stations anew"
            | "{device}: eingestellt auf {set}, geplant {planned}; es weicht nicht nur die eigene Nummer ab: richtig einstellen oder Gebäude und Stationen neu nummerieren",
        AddressUnread { device: &'a str, written: &'a str, planned: &'a str }:
            "{device}: \"{written}\" cannot be held against the planned address ({planned}): write its numbers in that order"
            | "{device}: \"{written}\" lässt sich nicht mit der geplanten Adresse ({planned}) vergleichen: ihre Zahlen in dieser Reihenfolge schreiben",
        PlaceOther { device: &'a str, written: &'a str, planned: &'a str }:
            "{device}: fitted at \"{written}\", planned {planned}"
            | "{device}: montiert: \"{written}\", geplant: {planned}",
        PlaceUnplanned { device: &'a str, written: &'a str }:
            "{device}: fitted at \"{written}\"; the plan names no place"
            | "{device}: montiert: \"{written}\"; der Plan nennt keinen Ort",
    }
}
