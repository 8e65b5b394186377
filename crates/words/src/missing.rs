//! What keeps something from being judged, as the object of "needs".

use crate::figures;
use crate::row::sentences;
use latchline_finding::{Both, Language};

sentences! {
    /// What is missing: nearly always a key of a part, as the files write it.
    #[derive(Eq, PartialOrd, Ord)]
    pub enum Missing {
        Key { part: String, key: &'static str }: "{part} {key}" | same,
        Keys { part: String, first: &'static str, second: &'static str }:
            "{part} {first} and {second}"
            | "{part} {first} und {second}",
        EscapeRoute { entrance: String }:
            "{entrance} escape_route = true (people escape through it) or false (they do not), as whoever answers for fire safety decided, with escape_decided_by and escape_decided_on"
            | "{entrance} escape_route = true (Fluchtweg) oder false (keiner), wie es entschied, wer für den Brandschutz einsteht, mit escape_decided_by und escape_decided_on",
        AlarmInput { entrance: String, number: usize, key: &'static str }:
            "{entrance} alarm input {number} {key}"
            | "{entrance} Alarmeingang {number} {key}",
        LowerTurnOff { part: String }:
            "{part} turn_off_voltage below its turn_on_voltage"
            | "{part} turn_off_voltage unter turn_on_voltage",
        LowerTurnOffOrDelay { part: String }:
            "{part} turn_off_voltage below its turn_on_voltage, or turn_on_delay"
            | "{part} turn_off_voltage unter turn_on_voltage, oder turn_on_delay",
        Terminator:
            "terminator of the run, true or false"
            | "terminator des Strangs, true oder false",
        OpenSignalLink:
            "a signal link that closes no loop"
            | "eine Signalverbindung, die keine Schleife schließt",
        MoreTime: "more time than is calculated" | "mehr Zeit, als gerechnet wird",
        SimulatorRange:
            "figures within the ranges that can be calculated"
            | "Werte in den Grenzen der Berechnung",
        Decidable:
            "a state too close to collapse to decide"
            | "eine Entscheidung, für die ein Zustand zu nah am Zusammenbruch liegt",
        Together { first: Box<Both>, second: Box<Both> }: "{first}, {second}" | same,
        OperatingPoint: "a bus whose voltage does not collapse" | "einen Bus, dessen Spannung nicht zusammenbricht",
        OutOfRange { place: String, quantity: &'static str, value: Box<Both>, least: Box<Both>, most: Box<Both> }:
            "{place}: {quantity} is {value}, must be between {least} and {most}"
            | "{place}: {quantity} ist {value}, zulässig {least} bis {most}",
    }
}

impl Missing {
    /// A key of a part or of an element.
    pub fn key(part: impl Into<String>, key: &'static str) -> Self {
        Missing::Key { part: part.into(), key }
    }

    /// A value of a part or an element that is outside the range in which it can be calculated with.
    pub fn out_of_range(place: String, quantity: &'static str, value: f64, range: [f64; 2]) -> Self {
        let [value, least, most] = [value, range[0], range[1]].map(|number| {
            let text = format!("{number:?}");
            Box::new(Both::new(text.clone(), figures::decimals(text, Language::German)))
        });
        Missing::OutOfRange { place, quantity, value, least, most }
    }

    /// A list of what is missing, behind "needs".
    pub fn list(all: &[Missing], language: Language) -> String {
        all.iter().map(|one| one.say(language)).collect::<Vec<_>>().join(", ")
    }

    /// Both of two.
    #[must_use]
    pub fn and(self, other: &Missing) -> Self {
        Missing::Together { first: Box::new(self.both()), second: Box::new(other.both()) }
    }
}
