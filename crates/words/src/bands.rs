//! Names of signal bands that the built-in catalogues give.

use crate::row::words;
use latchline_finding::Language;

words! {
    /// A band of a built-in family.
    pub enum Band {
        Speech: "speech" | "Sprache",
        SpeechAndData: "speech and data" | "Sprache und Daten",
        Picture: "picture" | "Bild",
    }
}

/// The name of a band. Names that a user's own catalogue gives stay as they are.
pub fn band(name: &str, language: Language) -> &str {
    let known = Band::ALL.iter().find(|band| band.say(Language::English) == name);
    known.map_or(name, |band| band.say(language))
}
