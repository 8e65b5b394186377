//! Severities, marks beside a finding, and what a further place is to it.

use crate::row::words;
use latchline_finding::{Language, Severity};

words! {
    /// A word before a line of a finding.
    pub enum Mark {
        Error: "error" | "Fehler",
        Warning: "warning" | "Warnung",
        Advice: "advice" | "Hinweis",
        At: "at" | "bei",
        Calls: "calls" | "Rufe",
        Help: "help" | "Rat",
        Note: "note" | "Anmerkung",
        Remedy: "remedy" | "Abhilfe",
        NotJudged: "not judged" | "nicht beurteilt",
        Accepted: "accepted" | "akzeptiert",
    }
}

/// The word of a severity.
pub fn severity(severity: Severity, language: Language) -> &'static str {
    let word = match severity {
        Severity::Error => Mark::Error,
        Severity::Warning => Mark::Warning,
        Severity::Advice => Mark::Advice,
    };
    word.say(language)
}

words! {
    /// What a further place is to its finding.
    pub enum Role {
        Battery: "battery" | "Batterie",
        Cable: "cable" | "Leitung",
        EscapeRoute: "escape route" | "Fluchtweg",
        FamilyOfThePart: "family of the part" | "Gerätefamilie des Teils",
        FamilyOfTheSite: "family of the site" | "Gerätefamilie der Anlage",
        Feed: "feed" | "Speisung",
        FirstDefinedHere: "first defined here" | "hier zuerst definiert",
        FirstReachedHere: "first reached here" | "hier zuerst erreicht",
        FirstUsedHere: "first used here" | "hier zuerst verwendet",
        GoesOnHere: "goes on here" | "geht hier weiter",
        Limit: "limit" | "Grenzwert",
        LimitFrom: "limit from" | "Grenzwert aus",
        Material: "material" | "Werkstoff",
        OtherDevice: "other device" | "das andere Gerät",
        OtherValue: "other value" | "der andere Wert",
        Resistance: "resistance" | "Widerstand",
        Calls: "calls" | "gerufen",
        Setting: "setting" | "Einstellung",
        Voltage: "voltage" | "Spannung",
    }
}

/// What a further place is to its finding, by its name in kebab case.
pub fn role(role: &str, language: Language) -> String {
    let words = role.replace('-', " ");
    let known = Role::ALL.iter().find(|known| known.say(Language::English) == words);
    known.map_or(words, |known| known.say(language).to_string())
}
