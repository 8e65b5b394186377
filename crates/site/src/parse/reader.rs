//! Reading a TOML tree through its key tables.

mod meant;
mod quantity;

use self::meant::{Unquoted, same_word, unquoted};
use super::{Entry, Field, Findings, NameBudget, Record, Value, clip};
use crate::codes;
use crate::keys::{KeySpec, Kind, TableSpec, Without, read_quantity};
use latchline_finding::{Code, FileId, Finding, Severity, Span};
use latchline_words::reading::{BadName, Thing};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Longest name that a user may give, in bytes.
const LONGEST_NAME: usize = 120;

/// Reads one file; everything that is wrong goes to the findings.
#[derive(Debug)]
pub struct Reader<'f> {
    /// The file.
    pub file: FileId,
    /// Where findings go.
    pub findings: &'f mut Findings,
    /// What suggestions may still cost.
    pub budget: &'f mut NameBudget,
}

/// Where in the file the reader stands, for messages.
#[derive(Clone, Copy)]
struct Context<'c> {
    /// The user's name of the element, inside named tables.
    element: Option<&'c str>,
    spec: &'static TableSpec,
    key: &'static str,
}

/// What a value is written as.
fn kind_of(value: &DeValue<'_>) -> Thing {
    match value {
        DeValue::String(_) => Thing::Text,
        DeValue::Integer(_) => Thing::Integer,
        DeValue::Float(_) => Thing::Float,
        DeValue::Boolean(_) => Thing::Boolean,
        DeValue::Datetime(_) => Thing::DateTime,
        DeValue::Array(_) => Thing::Array,
        DeValue::Table(_) => Thing::Table,
    }
}

/// Whether a table of one element holds nothing but tables that it has no keys for: the head of its table was split at a point in its name.
fn is_split_name(table: &DeTable<'_>, spec: &TableSpec) -> bool {
    let is_known = |name: &str| spec.keys.iter().any(|known| known.name == name);
    let is_part = |value: &DeValue<'_>, name: &str| matches!(value, DeValue::Table(_)) && !is_known(name);
    !table.is_empty() && table.iter().all(|(key, value)| is_part(value.get_ref(), key.get_ref()))
}

impl Reader<'_> {
    /// Reads the tree of a whole file.
    pub fn root<'d>(&mut self, root: &'d DeTable<'d>, spec: &'static TableSpec) -> Record<'d> {
        self.table(root, &(0..0), spec, None)
    }

    fn finding(&self, code: Code, span: &Range<usize>, element: Option<&str>) -> Finding {
        let finding = Finding::new(code, Severity::Error, Span::new(self.file, span.clone()));
        match element {
            Some(element) => finding.about(clip(element).as_str()),
            None => finding,
        }
    }

    fn table<'d>(
        &mut self,
        table: &'d DeTable<'d>,
        span: &Range<usize>,
        spec: &'static TableSpec,
        element: Option<&'d str>,
    ) -> Record<'d> {
        let mut record = Record {
            spec,
            file: self.file,
            span: span.clone(),
            fields: vec![None; spec.keys.len()],
            written: vec![false; spec.keys.len()],
            defaulted: Default::default(),
        };
        for (key, value) in table {
            let name: &str = key.get_ref();
            match spec.keys.iter().position(|known| known.name == name) {
                Some(position) => {
                    record.written[position] = true;
                    let known: &KeySpec = &spec.keys[position];
                    let context = Context { element, spec, key: known.name };
                    record.fields[position] = self.value(value, &known.kind, context).map(|value_read| {
                        Field { value: value_read, span: value.span(), key_span: key.span() }
                    });
                }
                None => {
                    self.unknown_key(name, &key.span(), spec, element);
                    // A table of the file under a wrong head: read as the one that is meant, else what it names seems to be nowhere.
                    let names_things = spec.keys.iter().any(KeySpec::names_things);
                    if names_things && matches!(value.get_ref(), DeValue::Table(_)) {
                        match self.meant(name, table, spec) {
                            Some(position) if !record.written[position] => {
                                record.written[position] = true;
                                let known = &spec.keys[position];
                                let context = Context { element, spec, key: known.name };
                                record.fields[position] =
                                    self.value(value, &known.kind, context).map(|read| Field {
                                        value: read,
                                        span: value.span(),
                                        key_span: key.span(),
                                    });
                            }
                            _ => self.findings.lack_table(),
                        }
                    }
                }
            }
        }
        for (position, key) in spec.keys.iter().enumerate() {
            if key.without == Without::Refused && !record.written[position] {
                let finding = self
                    .finding(codes::MISSING_KEY, span, element)
                    .with("key", key.name)
                    .with("table", spec.name.both());
                // A table of the file stands under a head of its own.
                let finding = match &key.kind {
                    Kind::Table(inner)
                        if element.is_none() && spec.keys.iter().any(KeySpec::names_things) =>
                    {
                        let texts = inner
                            .keys
                            .iter()
                            .filter(|key| key.without == Without::Refused && matches!(key.kind, Kind::Text));
                        finding.with("head", format!("[{}]", key.name)).with(
                            "lines",
                            texts.map(|key| format!("{} = \"...\"", key.name)).collect::<Vec<_>>(),
                        )
                    }
                    kind => finding.with("expected", kind.expected()),
                };
                self.findings.push(finding);
            }
        }
        record
    }

    /// The table of the file that a wrong head means: the only one that is like it, if it is not there under its own name.
    fn meant(&mut self, name: &str, table: &DeTable<'_>, spec: &'static TableSpec) -> Option<usize> {
        let nearest = self.budget.nearest(name, spec.keys.iter().map(|key| key.name));
        let [meant] = &nearest[..] else { return None };
        let is_it = |key: &KeySpec| key.name == meant && matches!(key.kind, Kind::Named(_) | Kind::Table(_));
        spec.keys.iter().position(is_it).filter(|_| !table.contains_key(meant.as_str()))
    }

    fn unknown_key(
        &mut self,
        name: &str,
        span: &Range<usize>,
        spec: &'static TableSpec,
        element: Option<&str>,
    ) {
        let mut finding = self.finding(codes::UNKNOWN_KEY, span, element);
        if !self.findings.is_full() {
            let nearest = self.budget.nearest(name, spec.keys.iter().map(|key| key.name));
            let valid: Vec<String> = spec.keys.iter().map(|key| key.name.to_string()).collect();
            if nearest.is_empty() {
                finding = finding.with("choices", valid.clone());
            }
            finding = finding
                .with("key", clip(name))
                .with("table", spec.name.both())
                .with("nearest", nearest)
                .with("valid", valid);
        }
        self.findings.push(finding);
    }

    fn wrong_type(&mut self, value: &Spanned<DeValue<'_>>, kind: &Kind, context: Context<'_>) {
        let finding = self
            .finding(codes::WRONG_TYPE, &value.span(), context.element)
            .with("key", context.key)
            .with("table", context.spec.name.both())
            .with("expected", kind.expected())
            .with("found", kind_of(value.get_ref()).both());
        // One text in a list where a text is wanted, or several: what they are is for who knows what the key means.
        let texts: Vec<String> = match (kind, value.get_ref()) {
            (Kind::Text, DeValue::Array(items)) => items
                .iter()
                .filter_map(|item| item.get_ref().as_str().map(|text| format!("\"{}\"", clip(text))))
                .collect(),
            _ => Vec::new(),
        };
        let finding = match &texts[..] {
            [] => finding,
            _ => finding.with("written", texts),
        };
        let finding = match value.get_ref() {
            DeValue::String(text) => match unquoted(kind, context.key, text) {
                Some(Unquoted::Value(value)) => finding.with("bare", value),
                Some(Unquoted::NoSuchDay) => finding.with("no_such_day", clip(text)),
                None => finding,
            },
            _ => finding,
        };
        self.findings.push(finding);
    }

    fn out_of_range(&mut self, span: &Range<usize>, context: Context<'_>, written: &str, kind: &Kind) {
        let finding = self
            .finding(codes::OUT_OF_RANGE, span, context.element)
            .with("key", context.key)
            .with("written", clip(written))
            .with("expected", kind.expected());
        self.findings.push(finding);
    }

    // The TOML library limits the depth of the tree to 80, and the key tables are not recursive.
    fn value<'d>(
        &mut self,
        value: &'d Spanned<DeValue<'d>>,
        kind: &Kind,
        context: Context<'d>,
    ) -> Option<Value<'d>> {
        let span = value.span();
        match (kind, value.get_ref()) {
            (Kind::Text, DeValue::String(text)) => self.text(text, &span, context),
            (Kind::Date, DeValue::Datetime(date)) if date.date.is_some() && date.time.is_none() => {
                Some(Value::Date(date.to_string()))
            }
            (Kind::Date, DeValue::String(text)) => {
                let date = text.parse::<toml::value::Datetime>().ok().filter(|date| date.time.is_none());
                if date.is_none() {
                    self.wrong_type(value, kind, context);
                }
                date.map(|date| Value::Date(date.to_string()))
            }
            (Kind::Integer(low, high), DeValue::Integer(number)) => {
                let parsed = i64::from_str_radix(number.as_str(), number.radix()).ok();
                match parsed.and_then(|number| u32::try_from(number).ok()) {
                    Some(number) if (*low..=*high).contains(&number) => Some(Value::Integer(number)),
                    _ => {
                        self.out_of_range(&span, context, number.as_str(), kind);
                        None
                    }
                }
            }
            (Kind::Number(low, high), DeValue::Integer(_) | DeValue::Float(_)) => {
                let (written, number) = match value.get_ref() {
                    DeValue::Integer(number) => (
                        number.as_str(),
                        i64::from_str_radix(number.as_str(), number.radix()).ok().map(|number| number as f64),
                    ),
                    DeValue::Float(number) => (number.as_str(), number.as_str().parse().ok()),
                    _ => return None,
                };
                // NaN lies in no range.
                match number.filter(|number: &f64| (*low..=*high).contains(number)) {
                    Some(number) => Some(Value::Number(number)),
                    None => {
                        self.out_of_range(&span, context, written, kind);
                        None
                    }
                }
            }
            (Kind::BooleanOr(word), DeValue::String(text)) if text == word => Some(Value::Text(word)),
            (Kind::Boolean | Kind::BooleanOr(_), DeValue::Boolean(truth)) => Some(Value::Boolean(*truth)),
            (Kind::Quantity(bounds), DeValue::String(text)) => match read_quantity(text, bounds) {
                Ok(number) => Some(Value::Quantity(number)),
                Err(error) => {
                    self.bad_quantity(text, &span, error, kind, &[bounds.dimension], context);
                    None
                }
            },
            (Kind::Load, DeValue::String(text)) => self.load(text, &span, kind, context),
            (Kind::Gauge, DeValue::String(text)) => self.gauge(text, &span, kind, context),
            (Kind::Quantity(_) | Kind::Load | Kind::Gauge, DeValue::Integer(_) | DeValue::Float(_)) => {
                let written = match value.get_ref() {
                    DeValue::Integer(number) => number.as_str(),
                    DeValue::Float(number) => number.as_str(),
                    _ => "",
                };
                self.bare_number(written, &span, kind, context);
                None
            }
            (Kind::Words(words), DeValue::String(text)) => {
                match words.iter().find(|word| **word == text.as_ref()) {
                    Some(word) => Some(Value::Text(word)),
                    None => {
                        let mut nearest = self.budget.nearest(text, words.iter().copied());
                        if let Some(same) = same_word(text).filter(|same| words.contains(same)) {
                            nearest = vec![same.to_string()];
                        }
                        let finding = self
                            .finding(codes::UNKNOWN_WORD, &span, context.element)
                            .with("key", context.key)
                            .with("word", clip(text))
                            .with("nearest", nearest)
                            .with("valid", words.iter().map(|word| (*word).to_string()).collect::<Vec<_>>());
                        self.findings.push(finding);
                        None
                    }
                }
            }
            (Kind::List(item) | Kind::OneOrMany(item), DeValue::Array(items)) => {
                let fields = items.iter().map(|entry| Field {
                    value: self.value(entry, item, context).unwrap_or(Value::Refused),
                    span: entry.span(),
                    key_span: entry.span(),
                });
                Some(Value::List(fields.collect()))
            }
            (Kind::OneOrMany(item), _) => {
                let read = self.value(value, item, context)?;
                Some(Value::List(vec![Field { value: read, span: span.clone(), key_span: span }]))
            }
            (Kind::KeyNames, DeValue::Array(items)) => {
                let mut fields = Vec::with_capacity(items.len());
                for item in items {
                    match item.get_ref() {
                        DeValue::String(name)
                            if context.spec.keys.iter().any(|key| key.name == name.as_ref()) =>
                        {
                            fields.push(Field {
                                value: Value::Text(name),
                                span: item.span(),
                                key_span: item.span(),
                            });
                        }
                        DeValue::String(name) => {
                            self.unknown_key(name, &item.span(), context.spec, context.element)
                        }
                        _ => self.wrong_type(item, &Kind::Text, context),
                    }
                }
                Some(Value::List(fields))
            }
            (Kind::Table(spec), DeValue::Table(table)) => {
                Some(Value::Table(self.table(table, &span, spec, context.element)))
            }
            (Kind::Named(spec), DeValue::Table(table)) => {
                let mut entries = Vec::with_capacity(table.len());
                for (key, entry) in table {
                    let name: &str = key.get_ref();
                    self.check_name(name, &key.span());
                    let record = match entry.get_ref() {
                        DeValue::Table(inner) if is_split_name(inner, spec) => {
                            self.bad_name(name, &key.span(), BadName::Dotted);
                            continue;
                        }
                        DeValue::Table(inner) => self.table(inner, &key.span(), spec, Some(name)),
                        _ => {
                            self.wrong_type(
                                entry,
                                &Kind::Table(spec),
                                Context { element: Some(name), ..context },
                            );
                            self.findings.lack_row(Span::new(self.file, key.span()), name);
                            continue;
                        }
                    };
                    entries.push(Entry { name, span: key.span(), record });
                }
                Some(Value::Named(entries))
            }
            _ => {
                self.wrong_type(value, kind, context);
                None
            }
        }
    }

    fn text<'d>(&mut self, text: &'d str, span: &Range<usize>, context: Context<'_>) -> Option<Value<'d>> {
        if text.chars().any(char::is_control) {
            let finding = self
                .finding(codes::BAD_NAME, span, context.element)
                .with("name", clip(&text.escape_debug().to_string()))
                .with("reason", BadName::ControlCharacter.both());
            self.findings.push(finding);
            return None;
        }
        Some(Value::Text(text))
    }

    fn check_name(&mut self, name: &str, span: &Range<usize>) {
        let reason = if name.trim().is_empty() {
            BadName::Empty
        } else if name.chars().any(char::is_control) {
            BadName::ControlCharacter
        } else if name.len() > LONGEST_NAME {
            BadName::TooLong
        } else if name.trim().len() != name.len() {
            BadName::SpaceAtEnd
        } else {
            return;
        };
        self.bad_name(name, span, reason);
    }

    fn bad_name(&mut self, name: &str, span: &Range<usize>, reason: BadName) {
        let finding = self
            .finding(codes::BAD_NAME, span, None)
            .with("name", clip(&name.escape_debug().to_string()))
            .with("reason", reason.both());
        self.findings.push(finding);
    }
}
