//! What is asked of a part beyond its keys.

use crate::codes;
use crate::parse::{Entry, Field, Findings, Record, Value};
use latchline_finding::{Both, Finding, Provenance, Severity};
use std::ops::Range;

/// Parts of a catalogue are as their data sheet says, where nothing else is said.
pub(super) const DATASHEET: Provenance = Provenance::Datasheet;

/// A key that the choice made by another key makes necessary.
pub(super) fn require(entry: &Entry<'_>, key: &'static str, because: Both, findings: &mut Findings) {
    require_in(entry.name, &entry.record, &entry.span, key, because, findings);
}

/// The same in a table that has no name of its own.
pub(super) fn require_in(
    element: &str,
    record: &Record<'_>,
    span: &Range<usize>,
    key: &'static str,
    because: Both,
    findings: &mut Findings,
) {
    let expected = record.spec.keys.iter().find(|spec| spec.name == key).map(|spec| spec.kind.expected());
    require_as(element, record, span, key, expected.unwrap_or(Both::same("")), because, findings);
}

/// The same of a key that may be less than its kind lets through.
pub(super) fn require_as(
    element: &str,
    record: &Record<'_>,
    span: &Range<usize>,
    key: &'static str,
    expected: Both,
    because: Both,
    findings: &mut Findings,
) {
    if !record.is_written(key) {
        findings.push(
            Finding::new(codes::MISSING_KEY, Severity::Error, record.at(span))
                .about(element)
                .with("key", key)
                .with("table", record.spec.name.both())
                .with("expected", expected)
                .with("because", because),
        );
    }
}

/// The first value must not exceed the second.
pub(super) fn ordered(
    record: &Record<'_>,
    element: &str,
    low: &'static str,
    high: &'static str,
    findings: &mut Findings,
) {
    let number = |key: &str| match record.field(key) {
        Some(Field { value: Value::Quantity(number), .. }) => Some(*number),
        Some(Field { value: Value::Integer(number), .. }) => Some(f64::from(*number)),
        _ => None,
    };
    if let (Some(first), Some(second)) = (number(low), number(high))
        && first > second
    {
        findings.push(
            Finding::new(codes::VALUES_OUT_OF_ORDER, Severity::Error, record.origin(low))
                .about(element)
                .with("key", low)
                .with("other_key", high)
                .also_at("other-value", record.origin(high)),
        );
    }
}
