//! Remedies: what to change, what it brings and costs.

use crate::row::{kebab, sentences, words};
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
            "staggered start: switched on run by run, {stagger} apart, it starts; the site file cannot state that"
            | "gestaffelter Anlauf: Strang für Strang im Abstand von {stagger} eingeschaltet, läuft es an; die Anlagendatei kann das nicht angeben",
        LoopMeasured { run: &'a str, at: &'a str, joined_at: &'a str, expected: &'a str, most: &'a str }:
            "measure before you change anything: this changes only what is known. Take the cable of run {run} off at {at} and disconnect all its stations. Join \
             both conductors at {joined_at} and read the loop at {at} with an ohmmeter. About {expected} is expected, and at most {most} will do. \
             Write the reading as runs.{run}.measured.loop"
            | "messen, bevor etwas geändert wird: Das ändert nur, was bekannt ist. Die Leitung von Strang {run} an {at} abklemmen, ebenso alle seine \
               Stationen. Beide Adern an {joined_at} verbinden und die Schleife an {at} mit dem Ohmmeter messen. Erwartet werden etwa {expected}, höchstens {most} \
               genügen. Den Messwert als runs.{run}.measured.loop eintragen",
        ThenLeft { findings: &'a str }: "left of it: {findings}" | "übrig bleibt: {findings}",
        ThenTold { findings: &'a str }: "which brings: {findings}" | "bringt neu: {findings}",
        Brought { severity: &'a str, code: &'a str, element: Option<&'a str> }:
            "{severity} {code}< at {element}>" | "{severity} {code}< an {element}>",
        LockOpens { names: &'a str, unless: Option<&'a str> }:
            "with the mains lost, the lock of {names} opens<, unless {unless}>"
            | "bei Netzausfall öffnet das Schloss von {names}<, außer {unless}>",
        LockStaysShut { names: &'a str, unless: Option<&'a str> }:
            "with the mains lost, the lock of {names} stays shut and cannot be released<, unless {unless}>"
            | "bei Netzausfall bleibt das Schloss von {names} zu und lässt sich nicht freigeben<, außer {unless}>",
        LightGoesOut { names: &'a str, unless: Option<&'a str> }:
            "with the mains lost, the light of {names} goes out<, unless {unless}>"
            | "bei Netzausfall erlischt die Leuchte von {names}<, außer {unless}>",
        StationsGoDark { stations: usize, names: &'a str }:
            "with the mains lost, {stations:station|stations} without a battery behind ({names})"
            | "bei Netzausfall {stations:Station|Stationen} ohne Batterie dahinter ({names})",
        MeasureTheWay { runs: &'a str }:
            "measure the new way of {runs}, its length is the old one"
            | "den neuen Weg von {runs} messen, die Länge ist die alte",
        Work { minutes: &'a str }: "{minutes} min of work" | "{minutes} min Arbeit",
        WorkNotKnown: "work not known" | "Arbeit nicht bekannt",
        BringsTo { value: &'a str }: "brings it to {value}" | "bringt es auf {value}",
        DoubledPair:
            "halves the pair's impedance and doubles its capacitance"
            | "halbiert den Wellenwiderstand des Paars und verdoppelt seine Kapazität",
        NotInPriceList: "price not known" | "Preis nicht bekannt",
        CostsWithoutSome { amount: &'a str }:
            "costs {amount} more for parts, and parts without a price"
            | "kostet {amount} mehr für Teile, dazu Teile ohne Preis",
        NoCost: "nothing to buy" | "nichts zu kaufen",
        SamePrice: "parts at the price of the old ones" | "Teile zum Preis der alten",
        Saves { amount: &'a str }: "saves {amount} for parts" | "spart {amount} für Teile",
        Costs { amount: &'a str }: "costs {amount} more for parts" | "kostet {amount} mehr für Teile",
        RestsOn { values: &'a str }: "rests on assumed values: {values}" | "beruht auf angenommenen Werten: {values}",
    }
}

words! {
    /// What would keep something fed while the mains are lost.
    pub enum UnlessWord {
        LockSupplyHasBattery: "its own supply has a battery" | "sein eigenes Netzteil hat eine Batterie",
        LightSupplyHasBattery: "its own supply has a battery" | "ihr eigenes Netzteil hat eine Batterie",
    }
}

words! {
    /// What kind of remedy it is.
    pub enum RemedyKind {
        AcceptanceRemoved: "acceptance removed" | "Akzeptanz entfernt",
        AnotherDistributor: "another distributor" | "anderer Verteiler",
        AnotherOutput: "another output of the supply" | "anderer Ausgang des Netzteils",
        AnotherPort: "another port" | "anderer Abgang",
        BranchBox: "branch box" | "Abzweigdose",
        BranchBoxes: "branch boxes" | "Abzweigdosen",
        BranchLoopedIn: "branch looped in" | "Abzweig eingeschleift",
        ChangedOrder: "changed order" | "geänderte Reihenfolge",
        ClampAcrossTheCoil: "clamp across the coil" | "Suppressordiode parallel zur Spule",
        ContactAsTheLockNeeds: "contact as the lock needs" | "Kontakt, wie das Schloss ihn braucht",
        DiodeAcrossTheCoil: "diode across the coil" | "Diode parallel zur Spule",
        DistributorAtTheSupply: "distributor at the supply" | "Verteiler am Netzteil",
        DoubledPair: "two pairs in parallel" | "zwei Paare parallel",
        DoubledPairsAllTheWay:
            "two pairs in parallel all the way"
            | "zwei Paare parallel auf dem ganzen Weg",
        EmergencyRelease: "emergency release" | "Nottaster",
        EmergencyReleaseOnFiveMetres:
            "emergency release on 5 m of cable (measure the way, and write its length)"
            | "Nottaster an 5 m Leitung (Weg messen und die Länge eintragen)",
        EndOfLineResistor: "resistor at the end of the line" | "Widerstand am Leitungsende",
        BranchBoxForEachLanding: "branch box on each landing" | "Abzweigdose auf jedem Podest",
        ExitButton: "exit button" | "Türöffnertaster",
        ExitButtonOnFiveMetres:
            "exit button on 5 m of cable (measure the way, and write its length)"
            | "Türöffnertaster an 5 m Leitung (Weg messen und die Länge eintragen)",
        FailSafeLock: "lock that opens without power" | "Schloss, das ohne Strom öffnet",
        FewerBatteries: "fewer batteries" | "weniger Batterien",
        FewerPairs: "fewer pairs" | "weniger Paare",
        HoldTimeAsSet: "hold time as set" | "Freigabezeit wie eingestellt",
        LargerButtonModules: "larger button modules" | "größere Tastenmodule",
        LargerSupply: "larger supply" | "größeres Netzteil",
        LightSupplyOfItsOwn: "light supply of its own" | "eigenes Netzteil der Leuchte",
        LighterModules: "modules that draw less" | "sparsamere Module",
        LighterStations: "stations that draw less" | "sparsamere Stationen",
        LightsFromTheDoorStation: "lights from the door station" | "Leuchten aus der Türstation",
        LockFromTheDoorStation: "lock from the door station" | "Schloss aus der Türstation",
        LockSupplyOfItsOwn: "lock supply of its own" | "eigenes Netzteil des Schlosses",
        LoopMeasured: "measure the loop" | "Schleife messen",
        LowerSupplyVoltage: "lower supply voltage" | "niedrigere Netzteilspannung",
        ManagementStationTold: "management station told" | "Meldung an die Zentrale",
        MoreBatteries: "more batteries" | "mehr Batterien",
        MoreButtonModules: "more button modules" | "mehr Tastenmodule",
        NewCable: "new cable" | "neue Leitung",
        NormallyClosedContact: "normally closed contact" | "Öffner",
        NumberByTheTool: "number chosen by the program" | "Nummer vom Programm",
        OtherCable: "other cable" | "andere Leitung",
        OtherDoorStation: "other door station" | "andere Türstation",
        OtherLight: "other light" | "andere Leuchte",
        OtherLockSupply: "other lock supply" | "anderes Netzteil des Schlosses",
        OtherLock: "other lock" | "anderes Schloss",
        OtherNumber: "other number" | "andere Nummer",
        OtherSupply: "other supply" | "anderes Netzteil",
        PartOfTheFamily: "part of the same family" | "Teil derselben Gerätefamilie",
        PortsExchanged: "two runs on each other's port" | "zwei Stränge, Abgänge getauscht",
        RelayInBetween: "relay in between" | "Koppelrelais",
        RelayInside: "relay inside" | "Relais innen",
        RunForEachLanding: "run for each landing" | "ein Strang je Stockwerk",
        RegeneratingBoxInFront:
            "regenerating distributor in front"
            | "regenerierender Verteiler davor",
        SecondSupply: "second supply for some of the runs" | "zweites Netzteil für einen Teil der Stränge",
        SecondaryEntrance: "secondary entrance" | "Nebeneingang",
        ShorterDelay: "shorter delay" | "kürzere Verzögerung",
        ShorterHoldTime: "shorter hold time" | "kürzere Freigabezeit",
        SupplyAsDelivered: "supply set back to its delivered voltage" | "Netzteil zurück auf Lieferspannung",
        SupplyNearerBy: "supply placed nearer" | "Netzteil näher gesetzt",
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
        WiderScope: "calls more dwellings" | "ruft weitere Wohnungen",
    }
}

/// What kind of remedy it is, by its name in kebab case.
pub fn remedy_kind(kind: &str, language: Language) -> String {
    let known = RemedyKind::ALL.iter().find(|known| kebab(&format!("{known:?}")) == kind);
    known.map_or_else(|| kind.replace('-', " "), |known| known.say(language).to_string())
}
