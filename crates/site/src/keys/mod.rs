//! Keys: what a row that declares one is made of.
//!
//! One row a key, beside the others of its TOML table: `crate::catalogue` holds those of catalogue files, `crate::model` those
//! of site files. The struct, its reader, the published JSON Schemas and the reference pages all follow from the rows (see
//! `keys!`), so that they cannot disagree.

pub(crate) mod bounds;
mod pages;
mod quantity;
mod row;
mod value;

pub use pages::key_tables;
pub(crate) use quantity::readings_of_comma;
pub use quantity::{
    Bounds, Dimension, QuantityError, UNITS, UnitSymbol, leading_number, read_number_and_unit, read_quantity,
    spelled_unit, without_groups,
};
pub(crate) use row::{choices, keys};
pub use value::{Gauge, LoadValue};

use latchline_finding::{Both, Language};
use latchline_words::reading::{Expected, Thing};

/// What the value of a key may be.
#[derive(Debug, Clone, Copy)]
pub enum Kind {
    /// Any text without control characters.
    Text,
    /// A date, written as YYYY-MM-DD.
    Date,
    /// A whole number within these ends.
    Integer(u32, u32),
    /// A number without unit within these ends.
    Number(f64, f64),
    /// `true` or `false`.
    Boolean,
    /// `true` or `false`, or this word where nobody knows.
    BooleanOr(&'static str),
    /// A number with a unit.
    Quantity(&'static Bounds),
    /// A load: power, current or resistance, told apart by the unit.
    Load,
    /// A conductor size: cross-section, gauge, diameter or resistance per length.
    Gauge,
    /// One of these words.
    Words(&'static [&'static str]),
    /// A list of such values.
    List(&'static Kind),
    /// One such value or a list of them.
    OneOrMany(&'static Kind),
    /// A list of names of keys of the same table.
    KeyNames,
    /// A table.
    Table(&'static TableSpec),
    /// A table whose keys are names that the user chooses.
    Named(&'static TableSpec),
}

/// One key of a table.
#[derive(Debug, Clone, Copy)]
pub struct KeySpec {
    /// The key.
    pub name: &'static str,
    /// What its value may be.
    pub kind: Kind,
    /// What holds without it.
    pub without: Without,
    /// What it means, in a sentence or two for an installer.
    pub doc: &'static str,
    /// What is judged by its value. An assumed value is told wherever that is judged.
    pub bears: Bears,
    /// Whether a table counts as one value where it is told that some of it is assumed.
    pub is_one_value: bool,
    /// The key without which nothing rests on this one, so that no value is assumed for it.
    pub goes_with: Option<&'static str>,
}

impl KeySpec {
    /// Whether it holds things of the site by their names: then its table is one of the file.
    pub fn names_things(&self) -> bool {
        matches!(self.kind, Kind::Named(_))
    }
}

/// What holds where a key is left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Without {
    /// It must be there.
    Refused,
    /// Its value is not known: what needs it is not judged.
    NotKnown,
    /// Leaving it out says the usual value.
    Usual,
    /// A value is taken that is a guess, and told as one.
    Assumed,
}

/// What is judged by the value of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Bears {
    /// Nothing: words, prices, how a part is sold.
    OnNothing,
    /// Voltages and currents, and what rests on them.
    OnFlow,
    /// Signals on the pair.
    OnSignal,
    /// Power return.
    OnStartUp,
    /// How long a battery lasts.
    OnBattery,
    /// Locks that a door station's output feeds.
    OnLockOutput,
    /// Some rule besides. This is what a row says that says nothing, so that a key whose row is forgotten is told
    /// too often and never too seldom.
    OnRules,
}

impl KeySpec {
    const fn new(name: &'static str, kind: Kind, doc: &'static str, without: Without) -> KeySpec {
        KeySpec { name, kind, without, doc, bears: Bears::OnRules, is_one_value: false, goes_with: None }
    }

    /// A key that must be there.
    pub(crate) const fn must(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
        KeySpec::new(name, kind, doc, Without::Refused)
    }

    /// A key without which its value is not known.
    pub(crate) const fn may(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
        KeySpec::new(name, kind, doc, Without::NotKnown)
    }

    /// A list, empty without the key.
    pub(crate) const fn list(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
        KeySpec::new(name, kind, doc, Without::Usual)
    }

    /// A key whose absence says the usual value.
    pub(crate) const fn or(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
        KeySpec::new(name, kind, doc, Without::Usual)
    }

    /// A key whose absence says the usual value as well as if it were written.
    pub(crate) const fn or_known(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
        KeySpec::new(name, kind, doc, Without::Usual)
    }

    /// A key for which a value is guessed.
    pub(crate) const fn or_assumed(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
        KeySpec::new(name, kind, doc, Without::Assumed)
    }

    /// The same, with what is judged by it.
    pub(crate) const fn bears(self, bears: Bears) -> KeySpec {
        KeySpec { bears, ..self }
    }

    /// The same, told as one value.
    pub(crate) const fn as_one_value(self) -> KeySpec {
        KeySpec { is_one_value: true, ..self }
    }

    /// The same, of weight only beside another key.
    pub(crate) const fn goes_with(self, key: &'static str) -> KeySpec {
        KeySpec { goes_with: Some(key), ..self }
    }
}

/// The keys of one table.
#[derive(Debug)]
pub struct TableSpec {
    /// What one such table describes ("run", "supply").
    pub name: Thing,
    /// What it is for.
    pub doc: &'static str,
    /// Its keys.
    pub keys: &'static [KeySpec],
}

/// The rows of two lists, one behind the other.
///
/// # Panics
/// When the program is built, if `N` is not the number of rows of both.
pub(crate) const fn joined<const N: usize>(first: &[KeySpec], second: &[KeySpec]) -> [KeySpec; N] {
    assert!(first.len() + second.len() == N);
    let mut all = [KeySpec::may("", Kind::Text, ""); N];
    let mut at = 0;
    while at < N {
        all[at] = if at < first.len() { first[at] } else { second[at - first.len()] };
        at += 1;
    }
    all
}

impl Kind {
    /// The table that values of this kind are, alone, in a list or by name.
    pub fn table(&self) -> Option<&'static TableSpec> {
        match self {
            Kind::Table(inner) | Kind::Named(inner) => Some(inner),
            Kind::List(item) | Kind::OneOrMany(item) => item.table(),
            _ => None,
        }
    }

    /// What is expected, in a few words, for messages and pages.
    pub fn expected(&self) -> Both {
        // "a run", "an entrance".
        let with_vowel = |name: &str| name.starts_with(['a', 'e', 'i', 'o', 'u']);
        let words = match self {
            Kind::Text => Expected::Text,
            Kind::Date => Expected::Date,
            Kind::Integer(low, high) => {
                return Expected::WholeNumber { low: &low.to_string(), high: &high.to_string() }.both();
            }
            Kind::Number(low, high) => {
                return Expected::Number { low: &low.to_string(), high: &high.to_string() }.both();
            }
            Kind::Boolean => Expected::Boolean,
            Kind::BooleanOr(word) => return Expected::BooleanOr { word }.both(),
            Kind::Quantity(bounds) => {
                let dimension = &bounds.dimension.words().both();
                let (low, high, example) = (bounds.low_text, bounds.high_text, bounds.example);
                return Expected::Quantity { dimension, low, high, example }.both();
            }
            Kind::Load => Expected::Load,
            Kind::Gauge => Expected::Gauge,
            Kind::Words(words) => {
                let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
                return Expected::OneOf { words: &words.join(", ") }.both();
            }
            Kind::List(item) => return Expected::List { item: &item.expected() }.both(),
            Kind::OneOrMany(item) => return Expected::OneOrList { item: &item.expected() }.both(),
            Kind::KeyNames => Expected::KeyNames,
            Kind::Table(spec) => {
                let thing = &spec.name.both();
                return match with_vowel(spec.name.say(Language::English)) {
                    true => Expected::TableOfVowel { thing },
                    false => Expected::Table { thing },
                }
                .both();
            }
            Kind::Named(spec) => {
                let thing = &spec.name.both();
                return match with_vowel(spec.name.say(Language::English)) {
                    true => Expected::NamesOfVowel { thing },
                    false => Expected::Names { thing },
                }
                .both();
            }
        };
        words.both()
    }
}
