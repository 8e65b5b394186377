//! Words, numbers, units and dates as the reader is used to them.

use crate::language::{BuiltWords, Sentence, Word};
use crate::options::Options;
use crate::table::{Cell, Column, Entry, MISSING};
use latchline_assess::conductor_size;
use latchline_finding::{Figure, Language, METRES_PER_FOOT, Unit, Units};
use latchline_site::catalogue::{Cable, Gauge};
use std::collections::BTreeMap;
use std::ops::Deref;
use std::sync::OnceLock;

pub use latchline_finding::Rounding;

/// Language and units, with the words of the pack.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Locale(pub latchline_finding::Locale);

impl Deref for Locale {
    type Target = latchline_finding::Locale;

    fn deref(&self) -> &latchline_finding::Locale {
        &self.0
    }
}

impl Locale {
    /// Of these options.
    pub fn of(options: &Options) -> Locale {
        Locale(options.locale)
    }

    /// A fixed word or sentence.
    pub fn word(&self, word: Word) -> &'static str {
        if american(self.0) { american_word(word) } else { word.say(self.language) }
    }

    /// A text as the reader spells it.
    pub fn spelled(&self, text: &str) -> String {
        if american(self.0) { american_spelling(text) } else { text.to_string() }
    }

    /// A length of cable between two devices as it is planned, to the nearest.
    pub fn length_laid(&self, length_m: f64) -> Cell {
        self.quantity(length_m, Unit::Metre, Rounding::Nearest)
    }

    /// A length to cut, rounded up: what is cut too short is lost.
    pub fn length_cut(&self, length_m: f64) -> Cell {
        self.quantity(length_m, Unit::Metre, Rounding::Up)
    }

    /// A length as it is sold, to the nearest.
    pub fn length_sold(&self, length_m: f64) -> Cell {
        self.quantity(length_m, Unit::Metre, Rounding::Nearest)
    }

    /// What is left of a drum, rounded down.
    pub fn length_left(&self, length_m: f64) -> Cell {
        self.quantity(length_m, Unit::Metre, Rounding::Down)
    }

    /// A resistance per length of one conductor: ohm/km, or ohm per 1,000 feet.
    pub fn ohm_per_length(&self, ohm_per_metre: f64) -> String {
        let (factor, length) = match self.units {
            Units::Metric => (1e3, "km"),
            Units::Us => (1e3 * METRES_PER_FOOT, "1000 ft"),
        };
        format!("{} {}/{length}", self.number(ohm_per_metre * factor, 2), self.ohm("ohm"))
    }

    /// A fixed word or sentence as a cell.
    pub fn cell(&self, word: Word) -> Cell {
        Cell::text(self.word(word))
    }

    /// A sentence with its arguments.
    pub fn say(&self, sentence: &Sentence<'_>) -> String {
        let said = sentence.say(self.0);
        if american(self.0) { american_spelling(&said) } else { said }
    }

    /// What an as-built entry says.
    pub fn built(&self, words: &BuiltWords<'_>) -> String {
        words.say(self.language)
    }

    /// Yes or no.
    pub fn yes_no(&self, yes: bool) -> Cell {
        self.cell(if yes { Word::Yes } else { Word::No })
    }

    /// A quantity as a cell; what is not finite becomes a dash.
    pub fn quantity(&self, value: f64, unit: Unit, rounding: Rounding) -> Cell {
        let (value, decimals, symbol) = self.scaled(Figure::new(value, unit));
        self.rounded(value, decimals, symbol, rounding)
    }

    /// A quantity with decimals of one's own choice.
    pub fn quantity_with(&self, value: f64, unit: Unit, decimals: u8, rounding: Rounding) -> Cell {
        let (value, _, symbol) = self.scaled(Figure::new(value, unit));
        self.rounded(value, decimals, symbol, rounding)
    }

    fn rounded(&self, value: f64, decimals: u8, unit: &'static str, rounding: Rounding) -> Cell {
        if !value.is_finite() {
            return Cell::text(MISSING);
        }
        let scale = f64::from(10_u32.pow(u32::from(decimals.min(9))));
        let nearest = (value * scale).round();
        // What is decimal but for its last binary digits stays what it is.
        let whole = if (value * scale - nearest).abs() < 1e-6 {
            nearest
        } else {
            match rounding {
                Rounding::Nearest => nearest,
                Rounding::Down => (value * scale).floor(),
                Rounding::Up => (value * scale).ceil(),
            }
        };
        Cell::Quantity { value: whole / scale + 0.0, decimals, unit }
    }

    /// A quantity that may be missing.
    pub fn quantity_or_dash(&self, value: Option<f64>, unit: Unit, rounding: Rounding) -> Cell {
        self.quantity(value.unwrap_or(f64::NAN), unit, rounding)
    }

    /// A figure in a sentence: "42.0 V". Currents and loads are rounded up, as in every table.
    pub fn figure(&self, figure: Figure) -> String {
        self.figure_rounded(figure, Rounding::Nearest)
    }

    /// A figure in a sentence, rounded to this side.
    pub fn figure_rounded(&self, figure: Figure, rounding: Rounding) -> String {
        let rounding = match (rounding, figure.unit) {
            (Rounding::Nearest, Unit::Ampere | Unit::Watt) => Rounding::Up,
            (rounding, _) => rounding,
        };
        self.cell_text(&self.quantity(figure.value, figure.unit, rounding), None)
    }

    /// A figure in a sentence, from its parts.
    pub fn in_words(&self, value: f64, unit: Unit) -> String {
        self.figure(Figure::new(value, unit))
    }

    /// An insulation in a sentence, in megohm: "0.5 Mohm".
    pub fn insulation(&self, ohm: f64) -> String {
        self.cell_text(&self.megohm(ohm), None)
    }

    /// An insulation as a cell, in megohm.
    pub fn megohm(&self, ohm: f64) -> Cell {
        Cell::Quantity { value: ohm / 1e6, decimals: 1, unit: self.word(Word::Megohm) }
    }

    /// A cell as text, its unit left out where it is that of the column.
    pub fn cell_text(&self, cell: &Cell, column: Option<&Column>) -> String {
        match cell {
            Cell::Empty | Cell::WriteIn | Cell::Choice(_) | Cell::Tick | Cell::Passed => String::new(),
            Cell::Text(text) => text.clone(),
            Cell::Written { entry, .. } => self.entry(entry),
            Cell::Count(count) => count.to_string(),
            Cell::Quantity { value, decimals, unit } => {
                let number = self.number(*value, usize::from(*decimals));
                let shown = column.and_then(|column| column.unit).is_some();
                if shown || unit.is_empty() { number } else { format!("{number} {unit}") }
            }
            Cell::Money(value) | Cell::Product { value, .. } => {
                self.number(value.as_hundredths() as f64 / 100.0, 2)
            }
            Cell::Date(date) => self.date(date),
        }
    }

    /// What somebody has written, numbers as the reader is used to them.
    pub fn entry(&self, entry: &Entry) -> String {
        match entry {
            Entry::Words(words) => words.clone(),
            Entry::Number(number) => self.trimmed(*number, 6),
            Entry::Date(date) => self.date(date),
        }
    }

    /// The size of one conductor: as the catalogue gives it, with the nearest AWG in US units and the
    /// cross-section of an AWG size in metric ones.
    pub fn conductor(&self, cable: &Cable) -> String {
        self.gauge(cable.gauge.value)
    }

    /// The size of a conductor, in the same way.
    pub fn gauge(&self, gauge: Gauge) -> String {
        let size = conductor_size(gauge);
        let with_awg = |text: String| match (self.units, size) {
            (Units::Us, Some(size)) => format!("{text} (≈ {} AWG)", size.nearest_awg),
            _ => text,
        };
        match gauge {
            Gauge::CrossSection { area, .. } => {
                with_awg(format!("{} mm²", self.trimmed(area.as_square_millimetres(), 3)))
            }
            Gauge::DiameterMm(diameter) => with_awg(format!("Ø {} mm", self.trimmed(diameter, 3))),
            Gauge::Awg(gauge) => match (self.units, size) {
                (Units::Metric, Some(size)) => {
                    format!("{gauge} AWG ({} mm²)", self.trimmed(size.area_mm2, 3))
                }
                _ => format!("{gauge} AWG"),
            },
            Gauge::Resistance(resistance) => {
                let ohm_per_metre = resistance.as_ohms_per_metre();
                self.ohm_per_length(ohm_per_metre)
            }
        }
    }
}

/// Whether a reader is used to American spelling.
fn american(locale: latchline_finding::Locale) -> bool {
    locale.language == Language::English && locale.units == Units::Us
}

/// What is said otherwise in American, of what the pack says: cable is sold by the foot there.
const SPELLED_OTHERWISE: [(&str, &str); 10] = [
    ("colour", "color"),
    ("Colour", "Color"),
    ("labelled", "labeled"),
    ("Labelled", "Labeled"),
    ("the metre", "the foot"),
    ("energised", "energized"),
    ("Energised", "Energized"),
    ("neighbour", "neighbor"),
    ("Neighbour", "Neighbor"),
    ("aluminium", "aluminum"),
];

fn american_spelling(text: &str) -> String {
    SPELLED_OTHERWISE.iter().fold(text.to_string(), |text, (here, there)| text.replace(here, there))
}

/// The few words of the pack that are spelled otherwise in American, made once.
fn american_word(word: Word) -> &'static str {
    static SPELLED: OnceLock<BTreeMap<Word, String>> = OnceLock::new();
    let spelled = SPELLED.get_or_init(|| {
        let said = |word: &Word| (*word, american_spelling(word.say(Language::English)));
        Word::ALL.iter().map(said).collect()
    });
    spelled.get(&word).map_or(word.say(Language::English), String::as_str)
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn locale(language: Language, units: Units) -> Locale {
        Locale(latchline_finding::Locale { language, units })
    }
    const ENGLISH: Locale = locale(Language::English, Units::Metric);
    const AMERICAN: Locale = locale(Language::English, Units::Us);

    #[test]
    fn roundings_never_flatter() {
        let value = |cell| match cell {
            Cell::Quantity { value, .. } => value,
            other => panic!("{other:?}"),
        };
        assert_eq!(value(ENGLISH.quantity(41.999, Unit::Volt, Rounding::Down)), 41.99);
        assert_eq!(value(ENGLISH.quantity(0.1231, Unit::Ampere, Rounding::Up)), 0.124);
        assert_eq!(value(ENGLISH.quantity(0.3, Unit::Volt, Rounding::Down)), 0.3);
        assert_eq!(ENGLISH.quantity(f64::NEG_INFINITY, Unit::Volt, Rounding::Down), Cell::text("–"));
    }

    /// The foot is 0.3048 m by definition; 20 °C is 68 °F.
    #[test]
    fn american_units() {
        assert_eq!(AMERICAN.in_words(30.48, Unit::Metre), "100.0 ft");
        assert_eq!(AMERICAN.in_words(20.0, Unit::Celsius), "68 °F");
        // 24 AWG solid, 25.67 ohm per 1,000 ft at 20 °C (ASTM B258, from memory): 84.22 ohm/km.
        assert_eq!(AMERICAN.ohm_per_length(0.08422), "25.67 ohm/1000 ft");
        assert_eq!(ENGLISH.ohm_per_length(0.08422), "84.22 ohm/km");
    }

    #[test]
    fn american_spelling_is_for_american_units() {
        assert_eq!(AMERICAN.word(Word::ColourUsed), "Color used");
        assert_eq!(ENGLISH.word(Word::ColourUsed), "Colour used");
        assert!(Word::ALL.iter().all(|word| !AMERICAN.word(*word).to_lowercase().contains("colour")));
    }
}
