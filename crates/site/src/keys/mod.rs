//! Tables of keys: what a site file and a catalogue file may say.
//!
//! One table per TOML table. The reader checks files against them, the published JSON Schemas
//! and the reference pages are generated from them, so the three cannot disagree.

mod bounds;
mod catalogue;
mod door_parts;
mod entrance;
mod pages;
mod site;

pub use catalogue::{ADDRESS_FIELD, ADDRESSES, CATALOGUE_FILE};
pub use pages::key_tables;
pub use site::SITE_FILE;

use crate::parse::Bounds;
use latchline_finding::Both;
use latchline_words::reading::{Expected, dimension, thing};

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
    /// Whether it must be there.
    pub required: bool,
    /// What it means, in a sentence or two for an installer.
    pub doc: &'static str,
    /// What is judged by its value. An assumed value is told wherever that is judged.
    pub bears: Bears,
    /// Whether a table counts as one value where it is told that some of it is assumed.
    pub is_one_value: bool,
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
    /// Some rule besides. This is what a row says that says nothing, so that a key whose row is forgotten is told
    /// too often and never too seldom.
    OnRules,
}

impl KeySpec {
    /// The same, with what is judged by it.
    const fn bears(self, bears: Bears) -> KeySpec {
        KeySpec { bears, ..self }
    }

    /// The same, told as one value.
    const fn as_one_value(self) -> KeySpec {
        KeySpec { is_one_value: true, ..self }
    }
}

/// The keys of one table.
#[derive(Debug)]
pub struct TableSpec {
    /// What one such table describes ("run", "supply").
    pub name: &'static str,
    /// What it is for.
    pub doc: &'static str,
    /// Its keys.
    pub keys: &'static [KeySpec],
}

const fn must(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
    KeySpec { name, kind, required: true, doc, bears: Bears::OnRules, is_one_value: false }
}

const fn may(name: &'static str, kind: Kind, doc: &'static str) -> KeySpec {
    KeySpec { name, kind, required: false, doc, bears: Bears::OnRules, is_one_value: false }
}

impl Kind {
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
            Kind::Quantity(bounds) => {
                let dimension = &dimension(bounds.dimension.word());
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
                let thing = &thing(spec.name);
                return match with_vowel(spec.name) {
                    true => Expected::TableOfVowel { thing },
                    false => Expected::Table { thing },
                }
                .both();
            }
            Kind::Named(spec) => {
                let thing = &thing(spec.name);
                return match with_vowel(spec.name) {
                    true => Expected::NamesOfVowel { thing },
                    false => Expected::Names { thing },
                }
                .both();
            }
        };
        words.both()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parse::{read_number_and_unit, read_quantity};
    use latchline_finding::Language;
    use latchline_words::reading::{Dimension as Measured, Thing};
    use std::collections::BTreeSet;

    fn every_table(spec: &'static TableSpec, seen: &mut Vec<&'static TableSpec>) {
        if seen.iter().any(|known| std::ptr::eq(*known, spec)) {
            return;
        }
        seen.push(spec);
        for key in spec.keys {
            let mut kind = key.kind;
            loop {
                match kind {
                    Kind::List(item) | Kind::OneOrMany(item) => kind = *item,
                    Kind::Table(inner) | Kind::Named(inner) => {
                        every_table(inner, seen);
                        break;
                    }
                    _ => break,
                }
            }
        }
    }

    /// What a table describes and what a quantity measures is said in every language.
    #[test]
    fn every_table_and_dimension_is_a_word() {
        let mut tables = Vec::new();
        every_table(&SITE_FILE, &mut tables);
        every_table(&CATALOGUE_FILE, &mut tables);
        for table in tables {
            let known = Thing::ALL.iter().any(|known| known.say(Language::English) == table.name);
            assert!(known, "{}", table.name);
        }
        for unit in crate::parse::UNITS {
            let word = unit.dimension.word();
            assert!(Measured::ALL.iter().any(|known| known.say(Language::English) == word), "{word}");
        }
    }

    #[test]
    fn keys_are_unique_documented_and_their_bounds_say_what_they_are() {
        let mut tables = Vec::new();
        every_table(&SITE_FILE, &mut tables);
        every_table(&CATALOGUE_FILE, &mut tables);
        assert!(tables.len() > 15);
        for table in tables {
            let names: BTreeSet<_> = table.keys.iter().map(|key| key.name).collect();
            assert_eq!(names.len(), table.keys.len(), "duplicate key in {}", table.name);
            for key in table.keys {
                assert!(key.doc.len() > 10, "{}.{} has no doc", table.name, key.name);
                if let Kind::Quantity(bounds) = key.kind {
                    for text in [bounds.low_text, bounds.high_text, bounds.example] {
                        read_quantity(text, bounds).unwrap_or_else(|error| panic!("{text}: {error}"));
                    }
                    for (text, value) in [(bounds.low_text, bounds.low), (bounds.high_text, bounds.high)] {
                        let wide = Bounds { low: value, high: value, ..*bounds };
                        assert!(read_quantity(text, &wide).is_ok(), "{text} is not {value}");
                        assert!(read_number_and_unit(text).is_ok());
                    }
                }
            }
        }
    }
}
