//! `catalogue`: the list of parts.

use crate::row::{sentences, words};

words! {
    /// Heads of the list, kinds of parts and what stands behind figures.
    pub enum CatalogueHead {
        TheCatalogue: "the catalogue" | "der Katalog",
        ForEveryFamily: "For every family" | "Für jede Gerätefamilie",
        Part: "Part" | "Teil",
        Kind: "Kind" | "Art",
        LeadingFigures: "Leading figures" | "Hauptdaten",
        PriceNamed: "price {}" | "Preis {}",
        Minutes: "min" | same,
        Defined: "Defined" | "Definiert",
        // Kinds.
        Supply: "supply" | "Netzteil",
        Distributor: "distributor" | "Verteiler",
        BranchBox: "branch box" | "Abzweigdose",
        DoorStation: "door station" | "Türstation",
        IndoorStation: "indoor station" | "Innenstation",
        ManagementStation: "management station" | "Zentrale",
        Cable: "cable" | "Leitung",
        Strike: "strike" | "Türöffner",
        MagneticLock: "magnetic lock" | "Haltemagnet",
        MotorLock: "motor lock" | "Motorschloss",
        Gate: "gate" | "Torantrieb",
        Lift: "lift" | "Aufzug",
        ButtonLight: "button light" | "Tastenbeleuchtung",
        NameLight: "name light" | "Namensbeleuchtung",
        PorchLight: "porch light" | "Außenleuchte",
        Keypad: "keypad" | "Codetastatur",
        Reader: "reader" | "Leser",
        ButtonModule: "button module" | "Tastenmodul",
        NameModule: "name module" | "Namensmodul",
        // What a part does.
        PassesTheBusOn: "passes the bus on" | "gibt den Bus weiter",
        PortsWithALimit: "ports with a limit" | "Abgänge mit Begrenzung",
        FeedsItsPortsAnew: "feeds its ports anew" | "speist seine Abgänge neu",
        Isolates: "isolates" | "trennt",
        Audio: "audio" | "Audio",
        Video: "video" | "Video",
        Indoors: "indoors" | "innen",
        Outdoors: "outdoors" | "außen",
        Buried: "buried" | "im Erdreich",
        NoLineConstants: "no line constants" | "keine Leitungskonstanten",
        OpensOnPowerLoss: "opens on power loss" | "öffnet bei Stromausfall",
        StaysShutOnPowerLoss: "stays shut on power loss" | "bleibt bei Stromausfall zu",
    }
}

sentences! {
    /// What `catalogue` says.
    pub enum CatalogueWords<'a> {
        Key:
            "Prices are per piece, for cables per metre. Resistances are of the loop at 20 °C. Defined: file and line; `latchline catalogue NAME` shows a part as it is written there."
            | "Preise je Stück, bei Leitungen je Meter. Widerstände der Schleife bei 20 °C. Definiert: Datei und Zeile; `latchline catalogue NAME` zeigt ein Teil, wie es dort steht.",
        PricesLeftOut { parts: usize, theirs: &'a str, own: &'a str }:
            "{parts:part has|parts have} a price in {theirs} and none in {own}: it is left out here and in every sum; state a rate of exchange under [rates], or prices in {own}."
            | "{parts:Teil hat einen Preis|Teile haben einen Preis} in {theirs} und keinen in {own}: er ist hier und in jeder Summe weggelassen; einen Wechselkurs unter [rates] angeben oder Preise in {own}.",
        Battery { capacity: &'a str }: "battery {capacity}" | "Batterie {capacity}",
        Ports { ports: usize }: "{ports} ports" | "{ports} Abgänge",
        CurrentAPort { current: &'a str }: "{current} a port" | "{current} je Abgang",
        Standby { load: &'a str }: "standby {load}" | "Ruhe {load}",
        Talking { load: &'a str }: "talking {load}" | "Sprechen {load}",
        From { voltage: &'a str }: "from {voltage}" | "ab {voltage}",
        Pairs { pairs: usize }: "{pairs:pair|pairs}" | "{pairs:Paar|Paare}",
        Places { first: &'a str, second: Option<&'a str>, third: Option<&'a str> }:
            "{first}< and {second}>< and {third}>"
            | "{first}< und {second}>< und {third}>",
        Buttons { buttons: usize }: "{buttons} buttons" | "{buttons} Tasten",
        DirectCurrent { voltage: &'a str }: "{voltage} DC" | same,
        AlternatingCurrent { voltage: &'a str }: "{voltage} AC" | same,
        EitherCurrent { voltage: &'a str }: "{voltage} AC or DC" | "{voltage} AC oder DC",
        Lines { file: &'a str, line: usize }: "{file}, line {line}" | "{file}, Zeile {line}",
    }
}
