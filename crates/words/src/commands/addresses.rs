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
        Run: "Run" | "Strang",
        Set: "Set" | "Einstellung",
        NumbersChosen: "Numbers that are not those of the names" | "Nummern, die nicht die der Namen sind",
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
        NoStation:
            "The site has no station yet, so nothing has an address."
            | "Die Anlage hat noch keine Station, also hat nichts eine Adresse.",
        ReadAtPowerUp:
            "Settings are read at power-up: set them before power comes on, or switch power off and on after a change."
            | "Einstellungen werden beim Einschalten gelesen: vorher einstellen, oder nach einer Änderung aus- und einschalten.",
        // Numbers that names do not give.
        ChosenTaken { dwelling: &'a str, number: usize, in_name: usize, other: &'a str }:
            "{dwelling} has {number}: {in_name} is {other}'s"
            | "{dwelling} hat {number}: {in_name} gehört {other}",
        ChosenUnusable { dwelling: &'a str, number: usize, in_name: usize }:
            "{dwelling} has {number}: {in_name} is no number of this system"
            | "{dwelling} hat {number}: {in_name} ist keine Nummer dieses Systems",
        ChosenWithout { dwelling: &'a str, number: usize }:
            "{dwelling} has {number}: there is no number in its name"
            | "{dwelling} hat {number}: In seinem Namen steht keine Nummer",
        ChosenAsk:
            "Is that wanted? If not, state `number` at the dwelling in the site file; --freeze keeps the numbers as they are."
            | "Ist das gewollt? Wenn nicht, in der Anlagendatei `number` bei der Wohnung angeben; --freeze behält die Nummern bei.",
        // One device.
        OneDevice { station: &'a str, model: &'a str, numbers: &'a str, settings: &'a str }:
            "{station} ({model}), {numbers}: {settings}"
            | "{station} ({model}), {numbers}: {settings}",
        NoAddress { station: &'a str, model: &'a str }:
            "{station} ({model}) could not be given an address; check says why"
            | "{station} ({model}) konnte keine Adresse erhalten; check sagt, warum",
        WhereIs { place: Option<&'a str>, ordinal: usize, stations: usize, run: &'a str, from: &'a str, before: &'a str }:
            "<{place}, >number {ordinal} of {stations} on run {run} from {from}; the cable comes from {before}"
            | "<{place}, >Nummer {ordinal} von {stations} an Strang {run} von {from}; die Leitung kommt von {before}",
        Reads { voltage: &'a str, lowest: &'a str, highest: &'a str }:
            "At its terminals in standby: {voltage} V ({lowest} to {highest})"
            | "An den Klemmen in Ruhe: {voltage} V ({lowest} bis {highest})",
        ReadsTalking { voltage: &'a str, lowest: &'a str, highest: &'a str }:
            "While it talks: {voltage} V ({lowest} to {highest})"
            | "Im Gespräch: {voltage} V ({lowest} bis {highest})",
        RunReads { run: &'a str, loop_ohm: &'a str, lowest: &'a str, highest: &'a str }:
            "Run {run} alone, far end bridged: {loop_ohm} ohm ({lowest} to {highest})"
            | "Strang {run} allein, fernes Ende gebrückt: {loop_ohm} Ohm ({lowest} bis {highest})",
        SameAddress { stations: &'a str }:
            "the same address on purpose as {stations}"
            | "absichtlich dieselbe Adresse wie {stations}",
        // Missing stations by what explains them.
        WholeRun { stations: &'a str, run: &'a str, from: &'a str, first: &'a str }:
            "{stations}: all of run {run}. Look first at {from}, then at the terminals of {first}: is there voltage?"
            | "{stations}: alle an Strang {run}. Zuerst {from} ansehen, dann die Klemmen von {first}: Ist Spannung da?",
        RunFrom { stations: &'a str, run: &'a str, last: &'a str, first: &'a str }:
            "{stations}: run {run} from {first} on, while {last} answers. Look first at the cable from {last} to {first} and its terminals."
            | "{stations}: Strang {run} ab {first}, während {last} sich meldet. Zuerst die Leitung von {last} nach {first} und ihre Klemmen ansehen.",
        Alone { station: &'a str, run: Option<&'a str> }:
            "{station}: alone<, others of run {run} answer>. Look first at its switches and its plug."
            | "{station}: allein<, andere an Strang {run} melden sich>. Zuerst seine Schalter und seinen Stecker ansehen.",
        OnlyOne { station: &'a str, run: &'a str }:
            "{station}: the only station on run {run}. Look first at its switches and its plug, then whether there is voltage at the start of the run."
            | "{station}: die einzige Station an Strang {run}. Zuerst ihre Schalter und ihren Stecker ansehen, dann, ob am Anfang des Strangs Spannung da ist.",
        NotTheOthers { stations: &'a str, run: &'a str }:
            "{stations}: these of run {run}, while others of it answer. Look first at their switches and plugs."
            | "{stations}: diese an Strang {run}, während andere sich melden. Zuerst ihre Schalter und Stecker ansehen.",
        SetWrong { station: &'a str }:
            "{station}: most likely there, but set to another number; see below."
            | "{station}: sehr wahrscheinlich da, aber auf eine andere Nummer eingestellt; siehe unten.",
        // Writing them into the site file.
        AllStated { file: &'a str }:
            "every number is stated in {file} already"
            | "jede Nummer steht bereits in {file}",
        Wrote { numbers: usize, file: &'a str }:
            "wrote {numbers:number|numbers} into {file}"
            | "{numbers:Nummer|Nummern} in {file} geschrieben",
        // Held against what the system found.
        AndMore { names: &'a str, more: usize }: "{names} and {more} more" | "{names} und {more} weitere",
        LinesNotRead { lines: usize, numbers: &'a str }:
            "{lines:line|lines} of the list could not be read ({numbers}): put right first what stands under Not read. A station that stands there is not missing"
            | "{lines:Zeile|Zeilen} der Liste nicht lesbar ({numbers}): Zuerst richten, was unter Nicht gelesen steht. Eine Station, die dort steht, fehlt nicht",
        Present { unread: Option<&'a str>, present: usize, planned: usize, missing: Option<&'a str> }:
            "<{unread}. >{present} of {planned} planned stations answer as planned<; missing: {missing}>."
            | "<{unread}. >{present} von {planned} geplanten Stationen melden sich wie geplant<; es fehlen: {missing}>.",
        Unexpected { class: &'a str, numbers: &'a str, line: usize, explanation: &'a str }:
            "{class} {numbers} (line {line} of the list): {explanation}"
            | "{class} {numbers} (Zeile {line} der Liste): {explanation}",
        Duplicated { class: &'a str, numbers: &'a str, times: usize, stations: &'a str, explanation: &'a str }:
            "{class} {numbers} answered {times} times; it is {stations}; the other: {explanation}"
            | "{class} {numbers} meldete sich {times}-mal; geplant ist {stations}; die andere: {explanation}",
        WithoutClass { line: usize }:
            "Line {line}: no word for the class (indoor, door, management) before the address."
            | "Zeile {line}: kein Wort für die Art (indoor, door, management) vor der Adresse.",
        WithoutNumber { line: usize }: "Line {line}: no number." | "Zeile {line}: keine Nummer.",
        NoAddressInLine { line: usize, text: &'a str }:
            "Line {line}: \"{text}\" is not clearly part of an address; leave it out, or write the address as 0/12/1."
            | "Zeile {line}: „{text}“ ist nicht eindeutig Teil einer Adresse; weglassen oder die Adresse als 0/12/1 schreiben.",
        OpenQuote { line: usize, column: usize }:
            "Line {line}: the quote that begins at sign {column} is not closed; close it, or leave quotes out: indoor 0/12/1."
            | "Zeile {line}: Das Anführungszeichen an Stelle {column} ist nicht geschlossen; schließen oder weglassen: indoor 0/12/1.",
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
