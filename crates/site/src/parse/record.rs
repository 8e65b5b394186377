//! Values that have passed their key table.

use crate::catalogue::{Gauge, LoadValue};
use crate::keys::{Bears, TableSpec};
use latchline_finding::{FileId, Money, Origin, Provenance, Sourced, Span};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::ops::Range;

/// A value of the right type and within its range, with its place.
#[derive(Debug, Clone)]
pub struct Field<'d> {
    /// The value.
    pub value: Value<'d>,
    /// Its place.
    pub span: Range<usize>,
    /// The place of its key (of the value itself inside lists).
    pub key_span: Range<usize>,
}

/// The value of a field.
#[derive(Debug, Clone)]
pub enum Value<'d> {
    /// Text, and one of a fixed set of words.
    Text(&'d str),
    /// A whole number.
    Integer(u32),
    /// A number without a unit.
    Number(f64),
    /// True or false.
    Boolean(bool),
    /// A quantity in its base unit.
    Quantity(f64),
    /// A load.
    Load(LoadValue),
    /// A conductor size; the class of a cross-section is filled in later.
    Gauge(Gauge),
    /// A date (YYYY-MM-DD).
    Date(String),
    /// A list.
    List(Vec<Field<'d>>),
    /// A table.
    Table(Record<'d>),
    /// A table keyed by the user's names.
    Named(Vec<Entry<'d>>),
    /// An item of a list that was refused; it keeps its place in the count.
    Refused,
}

/// One entry of a table keyed by the user's names.
#[derive(Debug, Clone)]
pub struct Entry<'d> {
    /// The name.
    pub name: &'d str,
    /// Its place.
    pub span: Range<usize>,
    /// What it names.
    pub record: Record<'d>,
}

/// The fields of one table, as its key table orders them.
#[derive(Debug, Clone)]
pub struct Record<'d> {
    /// Its key table.
    pub spec: &'static TableSpec,
    /// Its file.
    pub file: FileId,
    /// Its place.
    pub span: Range<usize>,
    /// One per key of the spec; `None` if absent or refused.
    pub fields: Vec<Option<Field<'d>>>,
    /// Whether the key was written at all, even if refused.
    pub written: Vec<bool>,
    /// Keys that were not written and for which a value was assumed.
    pub defaulted: RefCell<BTreeSet<usize>>,
}

/// A key whose value is assumed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AssumedKey {
    /// The key; that of a table before it.
    pub key: String,
    /// What is judged by it.
    pub bears: Bears,
}

impl<'d> Record<'d> {
    fn position(&self, key: &str) -> Option<usize> {
        self.spec.keys.iter().position(|spec| spec.name == key)
    }

    /// The field with this key.
    pub fn field(&self, key: &str) -> Option<&Field<'d>> {
        let position = self.position(key);
        debug_assert!(position.is_some(), "{} has no key {key}", self.spec.name);
        self.fields[position?].as_ref()
    }

    /// Whether the key was written, even if its value was refused.
    pub fn is_written(&self, key: &str) -> bool {
        self.position(key).is_some_and(|position| self.written[position])
    }

    /// The place of a range of bytes of this file.
    pub fn at(&self, range: &Range<usize>) -> Origin {
        Origin::Text(Span::new(self.file, range.clone()))
    }

    /// The place of the value of a key, or of the whole table.
    pub fn origin(&self, key: &str) -> Origin {
        self.at(self.field(key).map_or(&self.span, |field| &field.span))
    }

    /// A value, or what is assumed where none is written: which is told of the part like any other assumed value.
    pub fn or_assumed<T>(&self, key: &str, value: Option<Sourced<T>>, usual: T) -> Sourced<T> {
        value.unwrap_or_else(|| {
            self.defaulted.borrow_mut().extend(self.position(key));
            Sourced::assumed(usual)
        })
    }

    /// Every key whose value is assumed, in the order of the key table: those that the file calls so, and those that
    /// it leaves out and for which a value was taken all the same; of tables inside, too.
    pub fn assumed_keys(&self) -> Vec<AssumedKey> {
        let mut list: Vec<AssumedKey> = Vec::new();
        for (position, spec) in self.spec.keys.iter().enumerate() {
            let called_so = self.fields[position].is_some()
                && self.provenance(spec.name, Provenance::Stated) == Provenance::Assumed;
            let own = called_so || self.defaulted.borrow().contains(&position);
            let inner = self.table(spec.name).map(Record::assumed_keys).unwrap_or_default();
            if own || (spec.is_one_value && !inner.is_empty()) {
                list.push(AssumedKey { key: spec.name.to_string(), bears: spec.bears });
            } else {
                let under = |one: AssumedKey| AssumedKey { key: format!("{} {}", spec.name, one.key), ..one };
                list.extend(inner.into_iter().map(under));
            }
        }
        list
    }

    fn provenance(&self, key: &str, default: Provenance) -> Provenance {
        for (list, provenance) in [
            ("assumed", Provenance::Assumed),
            ("measured", Provenance::Measured),
            ("standard", Provenance::Standard),
        ] {
            let Some(position) = self.position(list) else { continue };
            if let Some(Field { value: Value::List(items), .. }) = &self.fields[position]
                && items.iter().any(|item| matches!(item.value, Value::Text(name) if name == key))
            {
                return provenance;
            }
        }
        default
    }

    fn sourced<T>(
        &self,
        key: &str,
        default: Provenance,
        read: impl Fn(&Value<'d>) -> Option<T>,
    ) -> Option<Sourced<T>> {
        let field = self.field(key)?;
        let value = read(&field.value)?;
        Some(Sourced::new(value, self.at(&field.span), self.provenance(key, default)))
    }

    /// Text.
    pub fn text(&self, key: &str) -> Option<&'d str> {
        match self.field(key)?.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Text with origin and provenance.
    pub fn sourced_text(&self, key: &str, default: Provenance) -> Option<Sourced<String>> {
        self.sourced(key, default, |value| match value {
            Value::Text(text) => Some((*text).to_string()),
            _ => None,
        })
    }

    /// One of a fixed set of words, translated.
    pub fn word<T: Copy>(&self, key: &str, default: Provenance, words: &[(&str, T)]) -> Option<Sourced<T>> {
        self.sourced(key, default, |value| match value {
            Value::Text(text) => words.iter().find(|(word, _)| word == text).map(|(_, meaning)| *meaning),
            _ => None,
        })
    }

    /// A whole number.
    pub fn integer(&self, key: &str, default: Provenance) -> Option<Sourced<u32>> {
        self.sourced(key, default, |value| match value {
            Value::Integer(number) => Some(*number),
            _ => None,
        })
    }

    /// A number without a unit.
    pub fn number(&self, key: &str, default: Provenance) -> Option<Sourced<f64>> {
        self.sourced(key, default, |value| match value {
            Value::Number(number) => Some(*number),
            _ => None,
        })
    }

    /// An amount of money.
    pub fn money(&self, key: &str, default: Provenance) -> Option<Sourced<Money>> {
        Some(self.number(key, default)?.map(Money::from_units))
    }

    /// True or false.
    pub fn boolean(&self, key: &str, default: Provenance) -> Option<Sourced<bool>> {
        self.sourced(key, default, |value| match value {
            Value::Boolean(truth) => Some(*truth),
            _ => None,
        })
    }

    /// A quantity, built from its number in the base unit.
    pub fn quantity<T>(&self, key: &str, default: Provenance, from_base: fn(f64) -> T) -> Option<Sourced<T>> {
        self.sourced(key, default, |value| match value {
            Value::Quantity(number) => Some(from_base(*number)),
            _ => None,
        })
    }

    /// A load.
    pub fn load(&self, key: &str, default: Provenance) -> Option<Sourced<LoadValue>> {
        self.sourced(key, default, |value| match value {
            Value::Load(load) => Some(*load),
            _ => None,
        })
    }

    /// A conductor size.
    pub fn gauge(&self, key: &str, default: Provenance) -> Option<Sourced<Gauge>> {
        self.sourced(key, default, |value| match value {
            Value::Gauge(gauge) => Some(*gauge),
            _ => None,
        })
    }

    /// The items of a list (a single value counts as a list of one where the key allows it).
    pub fn list(&self, key: &str) -> &[Field<'d>] {
        match self.field(key) {
            Some(Field { value: Value::List(items), .. }) => items,
            _ => &[],
        }
    }

    /// A table.
    pub fn table(&self, key: &str) -> Option<&Record<'d>> {
        match self.field(key) {
            Some(Field { value: Value::Table(record), .. }) => Some(record),
            _ => None,
        }
    }

    /// The entries of a table keyed by the user's names.
    pub fn named(&self, key: &str) -> &[Entry<'d>] {
        match self.field(key) {
            Some(Field { value: Value::Named(entries), .. }) => entries,
            _ => &[],
        }
    }
}
