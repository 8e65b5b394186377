//! `compare`: two versions of a site.

use crate::row::{sentences, words};

words! {
    /// Heads.
    pub enum CompareHead {
        Buy: "To buy, and to take back" | "Zu kaufen und zurückzugeben",
        Cables: "To pull" | "Zu ziehen",
        New: "New stations, boxes and supplies" | "Neue Stationen, Verteiler und Netzteile",
        Move: "To move and to wire again" | "Umzuhängen und neu zu verdrahten",
        Fit: "To fit, wire or take off (without a price in the catalogue it is not in the cost)" | "Einbauen, anschließen, entfernen (ohne Preis im Katalog nicht in den Kosten)",
        Label: "Labels and call lists" | "Beschriftung und Ruflisten",
        Known: "Other figures and wishes (no work on site; what follows rests on them)" | "Andere Angaben und Wünsche (keine Arbeit vor Ort; das Folgende beruht darauf)",
        Set: "To set again" | "Neu einzustellen",
        Better: "Better" | "Besser",
        Worse: "Worse" | "Schlechter",
    }
}

words! {
    /// Keys of the site file that are work on site, in words.
    pub enum CompareKey {
        SetVoltage: "output voltage" | "Ausgangsspannung",
        Batteries: "batteries" | "Batterien",
        Role: "role of the entrance" | "Rolle des Eingangs",
        Calls: "call list" | "Rufliste",
        Accessories: "modules" | "Module",
        FireInterlock: "fire interlock" | "Brandmeldefreigabe",
        ControlHeight: "height of the controls" | "Höhe der Bedienung",
        Heater: "heater" | "Heizung",
        SurgeProtection: "surge protector" | "Überspannungsschutz",
        SurgeProtectionAt: "ends with a surge protector" | "Enden mit Überspannungsschutz",
        SurgeEarth: "earth of the surge protector" | "Erdungsleiter des Überspannungsschutzes",
        Model: "model" | "Modell",
        Feed: "fed from" | "gespeist aus",
        SupplyVoltage: "voltage of its own supply" | "Spannung des eigenen Netzteils",
        SupplyTolerance: "tolerance of its own supply" | "Toleranz des eigenen Netzteils",
        SupplyAc: "alternating current" | "Wechselstrom",
        Contact: "relay contact" | "Relaiskontakt",
        AlarmContact: "contact" | "Kontakt",
        RelayBetween: "relay between" | "Zwischenrelais",
        HoldTime: "hold time" | "Öffnungszeit",
        Suppression: "suppression of the coil" | "Entstörung der Spule",
        SuppressionVoltage: "voltage of the suppression" | "Spannung der Entstörung",
        RelayOnSecureSide: "relay on the secure side" | "Relais auf der sicheren Seite",
        ExitButton: "exit button" | "Taster innen",
        EmergencyRelease: "emergency release" | "Notentriegelung",
        DelayedEgress: "delayed egress" | "verzögerter Ausgang",
        DoorContact: "door contact" | "Türkontakt",
        Lit: "lit" | "leuchtet",
        AlarmKind: "reports" | "meldet",
        EndOfLineResistor: "end-of-line resistor" | "Abschlusswiderstand",
        Tells: "tells" | "benachrichtigt",
        Label: "label" | "Schild",
        TerminatorCapacitor: "capacitor of the terminator" | "Kondensator des Abschlusses",
    }
}

sentences! {
    /// What is said of the difference.
    pub enum CompareWords<'a> {
        Verdicts { old: &'a str, new: &'a str }: "{old}; then {new}." | "{old}; danach {new}.",
        Same: "Nothing on site is different." | "An der Anlage ist nichts verschieden.",
        Cost { cost: &'a str, labour: &'a str, enters: &'a str }:
            "Cost: {cost}, {labour}, {enters}. Cable is priced by the metre; drum ends, spare stations and making good are not included."
            | "Kosten: {cost}, {labour}, {enters}. Leitung nach Metern gerechnet; Trommelreste, Reservestationen und Beiputzen sind nicht enthalten.",
        Unpriced { parts: usize }:
            "{parts:line has|lines have} no price"
            | "{parts:Position hat|Positionen haben} keinen Preis",
        CostMore { amount: &'a str }: "{amount} more for parts" | "{amount} mehr für Teile",
        CostLess { amount: &'a str }: "{amount} less for parts" | "{amount} weniger für Teile",
        CostUnknown { old: &'a str, new: &'a str }:
            "no price of the parts (the old one reckons in {old}, the new one in {new})"
            | "kein Preis der Teile (der alte Stand rechnet in {old}, der neue in {new})",
        CostSame: "the same for parts" | "gleich viel für Teile",
        NoWork: "no work by the catalogue's times" | "nach den Zeiten des Katalogs keine Arbeit",
        Line { quantity: &'a str, name: &'a str, cost: Option<&'a str> }: "{quantity} {name}< ({cost})>" | same,
        Metres { quantity: &'a str, name: &'a str, cost: Option<&'a str> }: "{quantity} m {name}< ({cost})>" | same,
        NewRun { run: &'a str, cable: &'a str, length: &'a str, from: &'a str, to: &'a str, there: Option<&'a str> }:
            "{run}: {length} m of {cable} from {from} to {to}<; {there} m of it are there already>"
            | "{run}: {length} m {cable} von {from} nach {to}<; davon liegen {there} m schon>",
        OtherCable { run: &'a str, old: &'a str, new: &'a str, length: &'a str }:
            "{run}: {length} m of {new} in place of {old}"
            | "{run}: {length} m {new} anstelle von {old}",
        InPlace { run: &'a str, old: &'a str, new: &'a str }:
            "{run}: the {new} that is there, in place of {old}"
            | "{run}: das vorhandene {new} anstelle von {old}",
        Beside { run: &'a str, cable: &'a str, cables: usize, length: &'a str }:
            "{run}: {cables:more cable|more cables} of {cable} beside the one that is there, {length} m"
            | "{run}: {cables:weitere Leitung|weitere Leitungen} {cable} neben der vorhandenen, {length} m",
        Extended { run: &'a str, cable: &'a str, more: &'a str, after: &'a str, to: &'a str, there: Option<&'a str> }:
            "{run}: {more} m more of {cable}, from {after} on to {to}<; {there} m of it are there already>"
            | "{run}: {more} m {cable} mehr, ab {after} weiter nach {to}<; davon liegen {there} m schon>",
        Shortened { run: &'a str, cable: &'a str, less: &'a str, at: &'a str, without: &'a str }:
            "{run}: ends at {at}; {less} m of {cable} to {without} are no longer used"
            | "{run}: endet an {at}; {less} m {cable} nach {without} entfallen",
        Sections { run: &'a str, old: &'a str, new: &'a str }:
            "{run}: section by section {new} m, was {old} m"
            | "{run}: Abschnitt für Abschnitt {new} m, bisher {old} m",
        OtherValue { owner: Option<&'a str>, key: &'a str, new: &'a str, old: &'a str }:
            "<{owner}: >{key} {new}, was {old}"
            | "<{owner}: >{key} {new}, bisher {old}",
        OtherNames { owner: &'a str, key: &'a str, come: Option<&'a str>, go: Option<&'a str> }:
            "{owner}, {key}<: add {come}><; take out {go}>"
            | "{owner}, {key}<: {come} hinzufügen><; {go} entfernen>",
        OtherPart { part: &'a str }:
            "{part}: the catalogue's figures or prices of it are others"
            | "{part}: Angaben oder Preise im Katalog sind andere",
        NotStated: "not stated" | "nicht angegeben",
        Yes: "yes" | "ja",
        No: "no" | "nein",
        HoursNotCompared: "hours of batteries are not compared, since the two files count other calls" | "Batteriestunden sind nicht verglichen, da die beiden Dateien andere Rufe zählen",
        OtherLength { run: &'a str, cable: &'a str, old: &'a str, new: &'a str }:
            "{run}: {new} m of {cable} in all, was {old} m"
            | "{run}: zusammen {new} m {cable}, bisher {old} m",
        RunGone { run: &'a str }: "{run} is no longer used" | "{run} entfällt",
        OtherPort { run: &'a str, old: &'a str, new: &'a str }:
            "{run}: from {new}, no longer from {old}"
            | "{run}: von {new} statt von {old}",
        OtherStops { run: &'a str, old: &'a str, new: &'a str }:
            "{run}: to {new}; was to {old}"
            | "{run}: nach {new}; bisher nach {old}",
        OtherPairs { run: &'a str, old: usize, new: usize }:
            "{run}: {new:pair|pairs in parallel} instead of {old}"
            | "{run}: {new:Paar|Paare parallel} statt {old}",
        TerminatorOn { run: &'a str }: "{run}: set the terminator on its last station" | "{run}: Abschluss an der letzten Station setzen",
        TerminatorOff { run: &'a str }: "{run}: take the terminator off its last station" | "{run}: Abschluss an der letzten Station entfernen",
        New { element: &'a str, model: &'a str, place: Option<&'a str> }:
            "{element}: new, {model}< at {place}>"
            | "{element}: neu, {model}< in {place}>",
        Gone { element: &'a str, model: &'a str }: "{element}: goes ({model})" | "{element}: entfällt ({model})",
        OtherModel { element: &'a str, old: &'a str, new: &'a str }:
            "{element}: {new} in place of {old}"
            | "{element}: {new} anstelle von {old}",
        OtherPlace { element: &'a str, old: &'a str, new: &'a str }:
            "{element}: to {new}, from {old}"
            | "{element}: nach {new}, von {old}",
        OtherNumber { element: &'a str, old: &'a str, new: &'a str }:
            "{element}: {new} instead of {old}"
            | "{element}: {new} statt {old}",
        Tightest { device: &'a str, old: &'a str, new: &'a str, old_bound: Option<&'a str>, new_bound: Option<&'a str> }:
            "{device}: margin< {new_bound}> {new} V, was< {old_bound}> {old} V"
            | "{device}: Reserve< {new_bound}> {new} V, bisher< {old_bound}> {old} V",
        TightestNow { device: &'a str, new: &'a str, new_bound: Option<&'a str> }:
            "{device}: margin< {new_bound}> {new} V, was dark: the voltage collapsed"
            | "{device}: Reserve< {new_bound}> {new} V, bisher dunkel: die Spannung brach zusammen",
        SupplyCurrentNow { supply: &'a str, new: &'a str }:
            "{supply}: largest current {new} A, its voltage collapsed"
            | "{supply}: größter Strom {new} A, bisher brach seine Spannung zusammen",
        WorksNoMore { element: &'a str }:
            "{element}: goes dark, the voltage collapses"
            | "{element}: wird dunkel, die Spannung bricht zusammen",
        SupplyCurrent { supply: &'a str, old: &'a str, new: &'a str }:
            "{supply}: largest current {new} A, was {old} A"
            | "{supply}: größter Strom {new} A, bisher {old} A",
        LockMargin { door: &'a str, old: &'a str, new: &'a str }:
            "lock of {door}: {new} V more than it needs, was {old} V"
            | "Schloss von {door}: {new} V mehr, als es braucht, bisher {old} V",
        BatteryHours { supply: &'a str, old: &'a str, new: &'a str }:
            "{supply}: {new} h of battery, was {old} h"
            | "{supply}: {new} h Batterie, bisher {old} h",
        BatteryLost { supply: &'a str, old: &'a str }:
            "{supply}: no battery any more, had {old} h"
            | "{supply}: keine Batterie mehr, bisher {old} h",
        BatteryCome { supply: &'a str, new: &'a str }:
            "{supply}: {new} h of battery, had none"
            | "{supply}: {new} h Batterie, bisher keine",
        CableAtDoor { entrance: &'a str, to: &'a str, length: &'a str, cable: &'a str, pairs: Option<&'a str>, old: Option<&'a str> }:
            "{entrance}, to {to}: {length} m of {cable}<, {pairs} pairs in parallel><; was {old}>"
            | "{entrance}, {to}: {length} m {cable}<, {pairs} Paare parallel><; bisher {old}>",
        CableAtDoorGone { entrance: &'a str, to: &'a str, old: &'a str }:
            "{entrance}, to {to}: no longer used ({old})"
            | "{entrance}, {to}: entfällt ({old})",
        OldCableAtDoor { length: &'a str, cable: &'a str, pairs: Option<&'a str> }:
            "{length} m of {cable}<, {pairs} pairs in parallel>"
            | "{length} m {cable}<, {pairs} Paare parallel>",
        AtDoorLock { number: usize }: "lock {number}" | "Schloss {number}",
        AtDoorPart { part: &'a str, number: usize }: "{part} of lock {number}" | "{part} von Schloss {number}",
        AtDoorLight { number: usize }: "light {number}" | "Leuchte {number}",
        AtDoorContact { number: usize }: "the contact at alarm input {number}" | "Kontakt am Meldeeingang {number}",
        FindingGone { code: &'a str, message: &'a str }: "gone: {message} [{code}]" | "behoben: {message} [{code}]",
        FindingNew { code: &'a str, message: &'a str }: "new: {message} [{code}]" | "neu: {message} [{code}]",
        FindingGraver { severity: &'a str, old: &'a str, code: &'a str, message: &'a str }:
            "now {severity}, was {old}: {message} [{code}]"
            | "jetzt {severity}, bisher {old}: {message} [{code}]",
        StateOfNew { state: &'a str, device: &'a str, margin: &'a str }:
            "Only the new one has this state: {state}. Least margin there: {margin} V, {device}. Margins below are those in the states of both."
            | "Nur die neue hat diesen Zustand: {state}. Kleinste Reserve darin: {margin} V, {device}. Die Reserven unten sind die in den gemeinsamen Zuständen.",
        StateOfOld { state: &'a str, device: &'a str, margin: &'a str }:
            "Only the old one had this state: {state}. Least margin there: {margin} V, {device}. Margins below are those in the states of both."
            | "Nur die alte hatte diesen Zustand: {state}. Kleinste Reserve darin: {margin} V, {device}. Die Reserven unten sind die in den gemeinsamen Zuständen.",
        GapGone { missing: &'a str }: "judged now: {missing}" | "jetzt beurteilt: {missing}",
        GapNew { missing: &'a str }: "no longer judged: {missing}" | "nicht mehr beurteilt: {missing}",
        More { count: usize }: "and {count} more" | "und {count} weitere",
    }
}
