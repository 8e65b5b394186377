//! Remedies: what to change, what it brings and costs.

use crate::row::{sentences, words};
use latchline_finding::Language;

sentences! {
    /// A part of what is said of a remedy or of a change to a file.
    pub enum RemedyWords<'a> {
        Adds { value: &'a str, place: &'a str }: "add {value} to {place}" | "{value} in {place} ergänzen",
        AddsTable { table: &'a str, body: &'a str }: "add [[{table}]] {body}" | "[[{table}]] {body} ergänzen",
        Removes { place: &'a str }: "remove {place}" | "{place} entfernen",
        ChangesLines { line: usize }: "change lines from {line}" | "Zeilen ab {line} ändern",
        Renames { place: &'a str, name: &'a str }: "rename {place} to {name}" | "{place} in {name} umbenennen",
        StaggeredStart { stagger: &'a str }:
            "staggered start: starting run after run {stagger} apart lets it start; the site file has no key for it"
            | "gestaffelter Anlauf: Strang für Strang im Abstand von {stagger} läuft es an; die Anlagendatei hat dafür keinen Schlüssel",
        LoopMeasured { run: &'a str, at: &'a str, joined_at: &'a str, expected: &'a str, most: &'a str }:
            "measure before you change anything, since this changes only what is known: the loop of run {run}, its cable off at {at} and all stations \
             on it disconnected, both conductors joined at {joined_at}, an ohmmeter across them at {at}; about {expected} is expected, and at most {most} \
             will do; write what it reads as runs.{run}.measured.loop"
            | "messen, bevor etwas geändert wird, denn das ändert nur, was bekannt ist: die Schleife von Strang {run}, Leitung an {at} und alle Stationen \
               daran abgeklemmt, beide Adern an {joined_at} verbunden, Ohmmeter an {at} über beide; erwartet werden etwa {expected}, und höchstens {most} \
               genügen; was es zeigt, als runs.{run}.measured.loop eintragen",
        ThenTold { findings: &'a str }: "then told: {findings}" | "danach gemeldet: {findings}",
        Brought { severity: &'a str, code: &'a str, element: Option<&'a str> }:
            "{severity} {code}< of {element}>" | "{severity} {code}< von {element}>",
        BringsTo { value: &'a str }: "brings it to {value}" | "bringt es auf {value}",
        DoubledPair:
            "halves the pair's impedance and doubles its capacitance"
            | "halbiert den Wellenwiderstand des Paars und verdoppelt seine Kapazität",
        NotInPriceList: "the part has no price in the catalogue" | "das Teil hat im Katalog keinen Preis",
        NoCost: "no parts to pay for" | "keine Teile zu bezahlen",
        Saves { amount: &'a str }: "saves {amount} for parts" | "spart {amount} für Teile",
        Costs { amount: &'a str }: "costs {amount} more for parts" | "kostet {amount} mehr für Teile",
        RestsOn { values: &'a str }: "rests on assumed values: {values}" | "beruht auf angenommenen Werten: {values}",
    }
}

words! {
    /// What kind of remedy it is.
    pub enum RemedyKind {
        AcceptanceRemoved: "acceptance removed" | "Akzeptanz entfernt",
        AnotherDistributor: "another distributor" | "anderer Verteiler",
        AnotherOutput: "another output" | "anderer Ausgang des Netzteils",
        AnotherPort: "another port" | "anderer Abgang",
        BranchBox: "branch box" | "Abzweigdose",
        BranchBoxes: "branch boxes" | "Abzweigdosen",
        BranchLoopedIn: "branch looped in" | "Abzweig eingeschleift",
        ChangedOrder: "changed order" | "geänderte Reihenfolge",
        ClampAcrossTheCoil: "clamp across the coil" | "Suppressordiode parallel zur Spule",
        ContactAsTheLockNeeds: "contact as the lock needs" | "Kontakt, wie das Schloss ihn braucht",
        DiodeAcrossTheCoil: "diode across the coil" | "Diode parallel zur Spule",
        DoubledPair: "doubled pair" | "doppeltes Paar",
        EmergencyRelease: "emergency release" | "Nottaster",
        EndOfLineResistor: "end of line resistor" | "Widerstand am Leitungsende",
        ExitButton: "exit button" | "Türöffnertaster",
        FailSafeLock: "fail safe lock" | "Schloss, das ohne Strom öffnet",
        FewerBatteries: "fewer batteries" | "weniger Batterien",
        FewerPairs: "fewer pairs" | "weniger Paare",
        HoldTimeAsSet: "hold time as set" | "Freigabezeit wie eingestellt",
        LargerButtonModules: "larger button modules" | "größere Tastenmodule",
        LargerSupply: "larger supply" | "größeres Netzteil",
        LightSupplyOfItsOwn: "light supply of its own" | "eigenes Netzteil der Leuchte",
        LighterModules: "lighter modules" | "leichtere Module",
        LighterStations: "lighter stations" | "leichtere Stationen",
        LightsFromTheDoorStation: "lights from the door station" | "Leuchten aus der Türstation",
        LockFromTheDoorStation: "lock from the door station" | "Schloss aus der Türstation",
        LockSupplyOfItsOwn: "lock supply of its own" | "eigenes Netzteil des Schlosses",
        LoopMeasured: "loop measured" | "Schleife gemessen",
        LowerSupplyVoltage: "lower supply voltage" | "niedrigere Netzteilspannung",
        ManagementStationTold: "management station told" | "Meldung an die Zentrale",
        MoreBatteries: "more batteries" | "mehr Batterien",
        MoreButtonModules: "more button modules" | "mehr Tastenmodule",
        NewCable: "new cable" | "neue Leitung",
        NormallyClosedContact: "normally closed contact" | "Öffner",
        NumberByTheTool: "number by the tool" | "Nummer vom Programm",
        OtherCable: "other cable" | "andere Leitung",
        OtherDoorStation: "other door station" | "andere Türstation",
        OtherLight: "other light" | "andere Leuchte",
        OtherLockSupply: "other lock supply" | "anderes Netzteil des Schlosses",
        OtherLock: "other lock" | "anderes Schloss",
        OtherNumber: "other number" | "andere Nummer",
        OtherSupply: "other supply" | "anderes Netzteil",
        PartOfTheFamily: "part of the family" | "Teil der Gerätefamilie",
        RelayInBetween: "relay in between" | "Relais dazwischen",
        RelayInside: "relay inside" | "Relais innen",
        RunForEachLanding: "run for each landing" | "ein Strang je Stockwerk",
        SecondaryEntrance: "secondary entrance" | "Nebeneingang",
        ShorterDelay: "shorter delay" | "kürzere Verzögerung",
        ShorterHoldTime: "shorter hold time" | "kürzere Freigabezeit",
        SupplyAsDelivered: "supply as delivered" | "Netzteil wie geliefert",
        SupplyNearerBy: "supply nearer by" | "Netzteil näher gesetzt",
        SurgeProtection: "surge protection" | "Überspannungsschutz",
        SurgeProtectionAtBothEnds: "surge protection at both ends" | "Überspannungsschutz an beiden Enden",
        Terminator: "terminator" | "Abschluss",
        TerminatorMoved: "terminator moved" | "Abschluss versetzt",
        TerminatorRemoved: "terminator removed" | "Abschluss entfernt",
        TerminatorSet: "terminator set" | "Abschluss gesetzt",
        ThickerAlarmCable: "thicker alarm cable" | "dickere Meldeleitung",
        ThickerConductor: "thicker conductor" | "dickere Ader",
        ThickerConductorsAllTheWay: "thicker conductors all the way" | "dickere Adern auf dem ganzen Weg",
        ThickerLockCable: "thicker lock cable" | "dickere Schlossleitung",
        TwoPairsToTheLock: "two pairs to the lock" | "zwei Paare zum Schloss",
        TwoChanges: "two changes" | "zwei Änderungen",
        VaristorAcrossTheCoil: "varistor across the coil" | "Varistor parallel zur Spule",
        WiderScope: "wider scope" | "weiterer Rufbereich",
    }
}

/// What kind of remedy it is, by its name in kebab case.
pub fn remedy_kind(kind: &str, language: Language) -> String {
    let words = kind.replace('-', " ");
    let known = RemedyKind::ALL.iter().find(|known| known.say(Language::English) == words);
    known.map_or(words, |known| known.say(language).to_string())
}
