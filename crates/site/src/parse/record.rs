//! Values that have passed their key table.

use crate::keys::{Bears, Gauge, Kind, LoadValue, TableSpec};
use latchline_finding::{FileId, Origin, Provenance, Sourced, Span};
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
    /// A table in which nothing is written.
    pub fn empty(spec: &'static TableSpec, file: FileId) -> Self {
        Record {
            spec,
            file,
            span: 0..0,
            fields: vec![None; spec.keys.len()],
            written: vec![false; spec.keys.len()],
            defaulted: RefCell::default(),
        }
    }

    fn position(&self, key: &str) -> Option<usize> {
        #[cfg(test)]
        super::asked::note(self.spec, key);
        self.spec.keys.iter().position(|spec| spec.name == key)
    }

    /// The field with this key.
    pub fn field(&self, key: &str) -> Option<&Field<'d>> {
        let position = self.position(key);
        debug_assert!(position.is_some(), "{:?} has no key {key}", self.spec.name);
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

    /// A value, or what is assumed where none is written: which is told of the part like any other assumed value, if
    /// anything rests on it.
    pub fn or_assumed<T>(&self, key: &str, value: Option<Sourced<T>>, usual: T) -> Sourced<T> {
        value.unwrap_or_else(|| {
            let position = self.position(key);
            let rests_on_it =
                |at: usize| self.spec.keys[at].goes_with.is_none_or(|other| self.is_written(other));
            self.defaulted.borrow_mut().extend(position.filter(|at| rests_on_it(*at)));
            Sourced::assumed(usual)
        })
    }

    /// Every key whose value is assumed, in the order of the key table: those that the file calls so, and those that
    /// it leaves out and for which a value was taken all the same; of tables inside, too.
    pub fn assumed_keys(&self) -> Vec<AssumedKey> {
        let mut list: Vec<AssumedKey> = Vec::new();
        for (position, spec) in self.spec.keys.iter().enumerate() {
            let field = self.fields[position].as_ref();
            let called_so =
                field.is_some() && self.provenance(spec.name, Provenance::Stated) == Provenance::Assumed;
            let own = called_so || self.defaulted.borrow().contains(&position);
            let inner = match field.map(|field| &field.value) {
                Some(Value::Table(inner)) => inner.assumed_keys(),
                _ => Vec::new(),
            };
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
            if !self.spec.keys.iter().any(|spec| spec.name == list) {
                continue;
            }
            if self.list(list).iter().any(|item| matches!(item.value, Value::Text(name) if name == key)) {
                return provenance;
            }
        }
        default
    }

    pub(super) fn sourced<T>(
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

    /// The items of a list (a single value counts as a list of one where the key allows it).
    pub fn list(&self, key: &str) -> &[Field<'d>] {
        match self.field(key) {
            Some(Field { value: Value::List(items), .. }) => items,
            _ => &[],
        }
    }

    /// The tables of a list.
    pub fn tables(&self, key: &str) -> impl Iterator<Item = &Record<'d>> {
        self.list(key).iter().filter_map(|item| match &item.value {
            Value::Table(table) => Some(table),
            _ => None,
        })
    }

    /// A table, by its reader; one in which nothing is written where there is none.
    pub fn within<T>(&self, key: &str, read: impl FnOnce(&Record<'d>) -> T) -> T {
        let kind = self.position(key).map(|position| self.spec.keys[position].kind);
        match (self.table(key), kind) {
            (Some(table), _) => read(table),
            (None, Some(Kind::Table(spec))) => read(&Record::empty(spec, self.file)),
            (None, _) => read(&Record::empty(self.spec, self.file)),
        }
    }

    /// A table, by its reader: `None` where it is written but could not be read, `Some(None)` where it is not written.
    pub fn inner<T>(&self, key: &str, read: impl FnOnce(&Record<'d>) -> Option<T>) -> Option<Option<T>> {
        match self.table(key) {
            Some(table) => Some(Some(read(table)?)),
            None if self.is_written(key) => None,
            None => Some(None),
        }
    }

    /// The tables of a list, by their reader: `None` where one of them could not be read.
    pub fn all<T>(&self, key: &str, mut read: impl FnMut(&Record<'d>) -> Option<T>) -> Option<Vec<T>> {
        // Every one is looked at, so that every mistake is found.
        let items: Vec<Option<T>> = self
            .list(key)
            .iter()
            .map(|item| match &item.value {
                Value::Table(table) => read(table),
                _ => None,
            })
            .collect();
        items.into_iter().collect()
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
