//! `addresses`: numbers, settings, and the plan held against what the system found.

use crate::row::{sentences, words};

words! {
    /// Heads of tables and blocks, classes of devices and fields of addresses.
    pub enum AddressHead {
        IndoorStations: "Indoor stations" | "Innenstationen",
        DoorStations: "Door stations" | "Türstationen",
        ManagementStations: "Management stations" | "Zentralen",
        Station: "Station" | same,
        Place: "Place" | "Ort",
        Number: "no." | "Nr.",
        Missing: "Missing" | "Fehlend",
        NotPlanned: "Not planned" | "Nicht geplant",
        AnsweredMoreOften: "Answered more often than planned" | "Öfter gemeldet als geplant",
        NotRead: "Not read" | "Nicht gelesen",
        // Classes, as they stand before the numbers of an address.
        Indoor: "indoor" | "Innenstation",
        Door: "door" | "Türstation",
        Management: "management" | "Zentrale",
        // Fields of an address.
        FieldBuilding: "building" | "Gebäude",
        FieldEntrance: "entrance" | "Eingang",
        FieldDwelling: "dwelling" | "Wohnung",
        FieldExtension: "extension" | "Nebenstelle",
        FieldManagement: "management" | "Zentrale",
        FieldOfAddress: "address" | "Adresse",
    }
}

sentences! {
    /// What `addresses` says.
    pub enum AddressWords<'a> {
        // Settings in few words.
        None: "none" | "keine",
        Set { label: Option<&'a str> }: "set< {label}>" | "Einstellung< {label}>",
        AllOff: "all OFF" | "alle OFF",
        On { numbers: &'a str }: "ON {numbers}" | same,
        NoneFitted: "none fitted" | "keine gesteckt",
        Fitted { numbers: &'a str }: "fitted {numbers}" | "gesteckt {numbers}",
        Key { digits: &'a str }: "key {digits}" | "Taste {digits}",
        ReadAtPowerUp:
            "Settings are read at power-up: set them before, or switch power off and on after a change."
            | "Einstellungen werden beim Einschalten gelesen: vorher einstellen, oder nach einer Änderung aus- und einschalten.",
        // Writing them into the site file.
        AllStated { file: &'a str }:
            "every number is stated in {file} already"
            | "jede Nummer steht bereits in {file}",
        Wrote { numbers: usize, file: &'a str }:
            "wrote {numbers:number|numbers} into {file}"
            | "{numbers:Nummer|Nummern} in {file} geschrieben",
        // Held against what the system found.
        Present { present: usize, planned: usize }:
            "{present} of {planned} planned stations answer as planned."
            | "{present} von {planned} geplanten Stationen melden sich wie geplant.",
        Unexpected { class: &'a str, numbers: &'a str, line: usize, explanation: &'a str }:
            "{class} {numbers} (line {line} of the list): {explanation}"
            | "{class} {numbers} (Zeile {line} der Liste): {explanation}",
        Duplicated { class: &'a str, numbers: &'a str, times: usize, stations: &'a str, explanation: &'a str }:
            "{class} {numbers} answered {times} times; it is {stations}; the other: {explanation}"
            | "{class} {numbers} meldete sich {times}-mal; geplant ist {stations}; die andere: {explanation}",
        UnreadLines { lines: &'a str }:
            "Lines of the list without a class word (indoor, door, management) or a number: {lines}"
            | "Zeilen der Liste ohne Wort für die Art (indoor, door, management) oder ohne Nummer: {lines}",
        NothingExplains:
            "no missing station explains it"
            | "keine fehlende Station erklärt das",
        Probably { station: &'a str, causes: &'a str }:
            "probably {station}, {causes}"
            | "wahrscheinlich {station}, {causes}",
        Perhaps { station: &'a str, causes: &'a str }: "perhaps {station}, {causes}" | "vielleicht {station}, {causes}",
        // What is set wrong.
        Cause { field: &'a str, what: &'a str }: "{field}: {what}" | same,
        RotariesExchanged: "two rotary switches are exchanged" | "zwei Drehschalter sind vertauscht",
        WrongRotary { switch: usize, set: &'a str, should: &'a str }:
            "rotary switch {switch} points to {set} and should to {should}"
            | "Drehschalter {switch} steht auf {set}, soll auf {should}",
        SwitchShouldBeOn { switch: usize }:
            "switch {switch} is OFF and should be ON"
            | "Schalter {switch} steht auf OFF, soll auf ON",
        SwitchShouldBeOff { switch: usize }:
            "switch {switch} is ON and should be OFF"
            | "Schalter {switch} steht auf ON, soll auf OFF",
        SwitchesInverted: "all switches are inverted" | "alle Schalter stehen umgekehrt",
        SwitchesReversed:
            "the switches were counted from the wrong end"
            | "die Schalter wurden vom falschen Ende gezählt",
        JumperMissing { jumper: usize }: "jumper {jumper} is missing" | "Steckbrücke {jumper} fehlt",
        JumperTooMuch { jumper: usize }:
            "jumper {jumper} must be taken out"
            | "Steckbrücke {jumper} muss heraus",
        WrongKeyedNumber: "a wrong number was keyed in" | "eine falsche Nummer wurde eingegeben",
        SeveralSwitches { count: usize }: "{count} switches are wrong" | "{count} Schalter stehen falsch",
    }
}
