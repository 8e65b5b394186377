//! Words that findings carry as arguments: what something is, does or needs.

use crate::row::{sentences, words};

words! {
    /// An argument of a finding.
    pub enum Term {
        AtLeast: "at least" | "mindestens",
        // Currents, contacts and what a lock does.
        AlternatingCurrent: "alternating current" | "Wechselstrom",
        DirectCurrent: "direct current" | "Gleichstrom",
        NormallyClosed: "normally closed" | "Öffner",
        NormallyOpen: "normally open" | "Schließer",
        OpensWithoutPower: "opens without power" | "öffnet ohne Strom",
        StaysShutWithoutPower: "stays shut without power" | "bleibt ohne Strom zu",
        AllTheTimeItIsShut: "all the time it is shut" | "solange es zu ist",
        WhileItIsReleased: "while it is released" | "solange es freigegeben ist",
        Current: "current" | "Strom",
        InrushCurrent: "inrush current" | "Einschaltstrom",
        Varistor: "a varistor" | "einen Varistor",
        DiodeOrClamp: "a diode or a clamp" | "eine Diode oder Suppressordiode",
        // Alarms.
        Tamper: "tamper" | "Sabotage",
        Duress: "duress" | "Überfall",
        DoorOpen: "door" | "Tür offen",
        Fire: "fire" | "Brand",
        // Places and roles.
        AtADoor: "at a door" | "an einer Tür",
        OnAnEscapeRoute: "on an escape route" | "an einem Fluchtweg",
        NoRuleKnown:
            "no rule known for the site's country"
            | "keine Regel für das Land der Anlage bekannt",
        Indoors: "indoors" | "innen",
        Outdoors: "outdoors" | "außen",
        Buried: "buried" | "im Erdreich",
        // Cables and readings.
        Aluminium: "aluminium" | "Aluminium",
        CladAluminium10: "copper-clad aluminium, 10 % copper" | "kupferplattiertes Aluminium, 10 % Kupfer",
        CladAluminium15: "copper-clad aluminium, 15 % copper" | "kupferplattiertes Aluminium, 15 % Kupfer",
        Copper: "copper" | "Kupfer",
        Loop: "loop" | "Schleife",
        Insulation: "insulation" | "Isolation",
        Longer: "longer" | "länger",
        Shorter: "shorter" | "kürzer",
        Higher: "higher" | "höher",
        Lower: "lower" | "niedriger",
        Screened: "screened" | "geschirmt",
        Unscreened: "unscreened" | "ungeschirmt",
        // How long the cables are that a signal is judged at.
        CablesAsStated: "cables as long as stated" | "Leitungen so lang wie angegeben",
        CablesLongest: "cables at their longest" | "Leitungen in größter Länge",
        CablesShortest: "cables at their shortest" | "Leitungen in kleinster Länge",
        // Why a catalogue cannot be read.
        NotGiven: "it was not given" | "sie wurde nicht mitgegeben",
        NotBesideTheSite:
            "there is no such text in the folder of the site file"
            | "im Ordner der Anlagendatei steht kein solcher Text",
        // What a limit does.
        Trips: "trips" | "schaltet ab",
        // Ways out, as far as there are any.
        FewerStationsOnTheRun: "fewer stations on the run" | "weniger Stationen am Strang",
        FewerStationsOnIt: "fewer stations on it" | "weniger Stationen daran",
        StationsToAFreePort:
            "move stations to a free port or another distributor"
            | "Stationen auf einen freien Abgang oder einen anderen Verteiler verlegen",
        StationsToAnotherBox:
            "no port of this box is free: move stations to another distributor"
            | "an diesem Verteiler ist kein Abgang frei: Stationen auf einen anderen Verteiler verlegen",
        StationAloneOnPort:
            "it is alone on the port: a station that draws less, or a box whose ports give more"
            | "sie ist allein am Abgang: eine Station, die weniger braucht, oder ein Verteiler, dessen Abgänge mehr geben",
        Hiccups: "hiccups" | "taktet",
        Limits: "limits" | "begrenzt nur",
        Nothing: "nothing" | "nichts",
        // Address fields.
        Building: "building" | "Gebäude",
        Dwelling: "dwelling" | "Wohnung",
        Entrance: "entrance" | "Eingang",
        Extension: "extension" | "Nebenstelle",
        Management: "management" | "Zentrale",
    }
}

sentences! {
    /// An argument of a finding that has arguments of its own.
    pub enum TermSentence<'a> {
        CountOfModel { count: usize, most: usize, model: &'a str }:
            "{count} of {most} {model}"
            | "{count} von {most} {model}",
    }
}
