//! Parts of the catalogue that a command is given by name.

use crate::row::{sentences, words};
use latchline_finding::Both;

words! {
    /// A kind of part that is asked for, with its article in German where it is asked for.
    pub enum PartKind {
        Family: "family" | "Gerätefamilie",
        Supply: "supply" | "Netzteil",
        Distributor: "distributor" | "Verteiler",
        Station: "station" | "Station",
        IndoorStation: "indoor station" | "Innenstation",
        DoorStation: "door station" | "Türstation",
        Lock: "lock" | "Schloss",
    }
}

words! {
    /// What a part is.
    pub enum PartWord {
        DoorStation: "a door station" | "eine Türstation",
        IndoorStation: "an indoor station" | "eine Innenstation",
        ManagementStation: "a management station" | "eine Zentrale",
        Family: "a family" | "eine Gerätefamilie",
        Supply: "a supply" | "ein Netzteil",
        Box: "a distributor or branch box" | "ein Verteiler oder eine Abzweigdose",
        Cable: "a cable" | "eine Leitung",
        Lock: "a lock" | "ein Schloss",
        Module: "a module of a door station" | "ein Modul einer Türstation",
        Light: "a light" | "eine Leuchte",
    }
}

sentences! {
    /// Why a part cannot be used, and what fits.
    pub enum PartRefusal<'a> {
        IsOtherKind { name: &'a str, is: PartWord, kind: PartKind, known: &'a str }:
            "{name} is {is}, and {kind:a} is asked for; there are {known}"
            | "{name} ist {is}, gefragt ist aber: {kind}; es gibt {known}",
        NoSuch { kind: PartKind, name: &'a str, known: &'a str }:
            "there is no {kind} \"{name}\" in the catalogue; there are {known}"
            | "{kind} „{name}“ gibt es im Katalog nicht; es gibt {known}",
        NoSuchNear { kind: PartKind, name: &'a str, names: &'a Both }:
            "there is no {kind} \"{name}\" in the catalogue; did you mean {names}?"
            | "{kind} „{name}“ gibt es im Katalog nicht; gemeint ist vielleicht {names}?",
        OtherFamily { part: &'a str, its: &'a str, family: &'a str }:
            "{part} is of the family {its} and does not work with {family}; name parts of one family, or the family with --family"
            | "{part} gehört zur Gerätefamilie {its} und arbeitet nicht mit {family}; Teile einer Familie nennen oder die Familie mit --family",
        OtherFamilyThanSite { part: &'a str, its: &'a str, family: &'a str }:
            "{part} is of the family {its}, and this site is of {family}; name a station of that family"
            | "{part} gehört zur Gerätefamilie {its}, diese Anlage zu {family}; eine Station dieser Familie nennen",
        NoFamily: "the catalogue has no family" | "der Katalog hat keine Gerätefamilie",
        FamilyLacks { family: &'a str }:
            "the family {family} lacks a supply, distributor, door or indoor station"
            | "der Gerätefamilie {family} fehlt ein Netzteil, ein Verteiler, eine Tür- oder eine Innenstation",
        FamilyWithoutSupply { family: &'a str }:
            "the family {family} has no supply"
            | "die Gerätefamilie {family} hat kein Netzteil",
        NoSuchFamily { family: &'a str, known: &'a str }:
            "there is no family \"{family}\"; the catalogue has {known}"
            | "die Gerätefamilie „{family}“ gibt es nicht; der Katalog hat {known}",
        NoDoorStation { name: &'a str }: "{name} is no door station" | "{name} ist keine Türstation",
        NoIndoorStation { name: &'a str }: "{name} is no indoor station" | "{name} ist keine Innenstation",
        NoPart { name: &'a str }:
            "there is no part \"{name}\" in the catalogue; latchline catalogue lists them"
            | "das Teil „{name}“ gibt es im Katalog nicht; latchline catalogue zeigt alle",
        NoPartNear { name: &'a str, names: &'a Both }:
            "there is no part \"{name}\" in the catalogue; did you mean {names}?"
            | "das Teil „{name}“ gibt es im Katalog nicht; gemeint ist vielleicht {names}?",
        NoCableNamed:
            "no cable is named: write for example --cable pair-0.8; all of them: latchline catalogue"
            | "keine Leitung ist genannt: zum Beispiel --cable pair-0.8 schreiben; alle: latchline catalogue",
        NoCable { asked: &'a str, name: &'a str, cable: &'a str }:
            "no cable is called \"{asked}\"; did you mean \"{name}\" ({cable})? All of them: latchline catalogue"
            | "keine Leitung heißt „{asked}“; gemeint ist vielleicht „{name}“ ({cable})? Alle: latchline catalogue",
        WhichCable { asked: &'a str, known: &'a str }:
            "which cable is \"{asked}\"? It may be {known}"
            | "welche Leitung ist „{asked}“? Es kann sein: {known}",
        TooManyStations:
            "more than 400 stations are no question for one supply"
            | "mehr als 400 Stationen sind keine Frage für ein Netzteil",
        NotASite { said: &'a Both }:
            "the parts that were named do not make a site: {said}"
            | "die genannten Teile ergeben keine Anlage: {said}",
    }
}
