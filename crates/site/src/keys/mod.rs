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

/// "a run", "an entrance".
fn with_article(name: &str) -> String {
    let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {name}")
}

impl Kind {
    /// What is expected, in a few words, for messages and pages.
    pub fn expected(&self) -> String {
        match self {
            Kind::Text => "text in quotes".to_string(),
            Kind::Date => "a date such as 2026-11-02".to_string(),
            Kind::Integer(low, high) => format!("a whole number from {low} to {high}"),
            Kind::Number(low, high) => format!("a number from {low} to {high}"),
            Kind::Boolean => "true or false".to_string(),
            Kind::Quantity(bounds) => format!(
                "a {} from {} to {}, such as \"{}\"",
                bounds.dimension.word(),
                bounds.low_text,
                bounds.high_text,
                bounds.example
            ),
            Kind::Load => "a load such as \"4.5 W\", \"85 mA\" or \"470 ohm\"".to_string(),
            Kind::Gauge => {
                "a conductor size such as \"1.5 mm²\", \"0.8 mm\", \"24 AWG\" or \"84.2 ohm/km\"".to_string()
            }
            Kind::Words(words) => {
                format!(
                    "one of {}",
                    words.iter().map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(", ")
                )
            }
            Kind::List(item) => format!("a list of: {}", item.expected()),
            Kind::OneOrMany(item) => format!("one or a list of: {}", item.expected()),
            Kind::KeyNames => "a list of keys of this table".to_string(),
            Kind::Table(spec) => format!("a table that describes {}", with_article(spec.name)),
            Kind::Named(spec) => format!("a table of names, each describing {}", with_article(spec.name)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parse::{read_number_and_unit, read_quantity};
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
