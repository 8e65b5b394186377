//! What keeps something from being judged, as the object of "needs".

use crate::figures;
use crate::key_names::without_keys;
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
        EscapeDecision { entrance: String, keys: String }:
            "{entrance} {keys}, of whoever answers for fire safety"
            | "{entrance} {keys}, von dem, der für den Brandschutz einsteht",
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
        MoreTime:
            "a longer calculation than is made: it is neither up nor at rest after 10 s, so switch the runs on one after the other on site"
            | "eine längere Rechnung, als gemacht wird: nach 10 s ist weder alles an noch alles in Ruhe, also vor Ort Strang um Strang einschalten",
        WarmerBattery { supply: String, coldest: Box<Both>, least: Box<Both> }:
            "a battery that stays at {least} °C or above ({supply} coldest_ambient is {coldest} °C): below that no capacity is tabled, so put it in a warmer or heated place, or take hours at that cold from the battery's maker"
            | "eine Batterie, die nicht unter {least} °C kommt ({supply} coldest_ambient ist {coldest} °C): darunter ist keine Kapazität tabelliert, also wärmer oder beheizt unterbringen, oder die Stunden bei dieser Kälte beim Hersteller der Batterie erfragen",
        SimulatorRange:
            "figures within the ranges that can be calculated"
            | "Werte in den Grenzen der Berechnung",
        Decidable:
            "a state too close to collapse to decide"
            | "eine Entscheidung, für die ein Zustand zu nah am Zusammenbruch liegt",
        EverySetOfCalls:
            "every set of calls tried: those that draw most were, and nothing excludes that one left out is worse"
            | "jede Rufkombination gerechnet: die stromstärksten sind es, doch nichts schließt aus, dass eine ausgelassene schlechter ist",
        Together { first: Box<Both>, second: Box<Both> }: "{first}, {second}" | same,
        OperatingPoint: "a bus whose voltage does not collapse" | "einen Bus, dessen Spannung nicht zusammenbricht",
        OutOfRange { place: String, quantity: &'static str, value: Box<Both>, least: Box<Both>, most: Box<Both> }:
            "{place}: {quantity} is {value}, must be between {least} and {most}"
            | "{place}: {quantity} ist {value}, zulässig {least} bis {most}",
    }
}

sentences! {
    /// The same of an escape route, for people who never see a file.
    pub enum OnPaper<'a> {
        EscapeRoute { entrance: &'a str }:
            "{entrance}: whether people escape through it, as whoever answers for fire safety decided, and who decided it when"
            | "{entrance}: ob sie ein Fluchtweg ist, wie es entschied, wer für den Brandschutz einsteht, und wer das wann entschied",
        EscapeDecision { entrance: &'a str }:
            "{entrance}: who decided about the way of escape, and when"
            | "{entrance}: wer über den Fluchtweg entschied, und wann",
    }
}

impl Missing {
    /// As it is said on paper: without keys of files.
    pub fn on_paper(&self, language: Language) -> String {
        match self {
            Missing::EscapeRoute { entrance } => OnPaper::EscapeRoute { entrance }.say(language),
            Missing::EscapeDecision { entrance, .. } => OnPaper::EscapeDecision { entrance }.say(language),
            other => without_keys(&other.say(language), language),
        }
    }

    /// A list of it, behind "needs", for paper.
    pub fn list_on_paper(all: &[Missing], language: Language) -> String {
        all.iter().map(|one| one.on_paper(language)).collect::<Vec<_>>().join(", ")
    }

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

    /// A battery colder than its capacity is known for.
    pub fn warmer_battery(supply: String, coldest_c: f64, least_c: f64) -> Self {
        let number = |value: f64| {
            let text = format!("{value}").replace('-', "−");
            Box::new(Both::new(text.clone(), figures::decimals(text, Language::German)))
        };
        Missing::WarmerBattery { supply, coldest: number(coldest_c), least: number(least_c) }
    }

    /// Whether it is a value that a data sheet or the site can tell, so that writing it into a file mends it.
    pub fn can_be_stated(&self) -> bool {
        !matches!(
            self,
            Missing::MoreTime
                | Missing::WarmerBattery { .. }
                | Missing::SimulatorRange
                | Missing::Decidable
                | Missing::EverySetOfCalls
                | Missing::OpenSignalLink
                | Missing::OperatingPoint
        )
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
