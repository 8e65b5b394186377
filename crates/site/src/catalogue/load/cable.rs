//! Cables.

use super::require::{require_as, require_in};
use crate::catalogue::{Cable, CableLoss, Gauge, LineConstants, LineRest, PartHead};
use crate::codes;
use crate::parse::{Entry, Findings, Record};
use latchline_finding::quantity::InductancePerLength;
use latchline_finding::{Both, Finding, Provenance, Severity, Sourced};
use latchline_words::reading::{Because, Expected};

pub(super) fn cable(entry: &Entry<'_>, provenance: Provenance, findings: &mut Findings) -> Option<Cable> {
    let record = &entry.record;
    let gauge = gauge(entry, provenance, findings)?;
    let line = record.inner("line", |line| line_constants(entry.name, line, provenance, findings))?;
    Cable::read(record, provenance, PartHead::read(entry, provenance)?, gauge, line)
}

fn gauge(entry: &Entry<'_>, provenance: Provenance, findings: &mut Findings) -> Option<Sourced<Gauge>> {
    let record = &entry.record;
    let size: Sourced<Gauge> = record.read("gauge", provenance)?;
    if !matches!(size.value, Gauge::CrossSection { .. }) {
        return Some(size);
    }
    let classes = || Expected::ConductorClass.both();
    require_as(entry.name, record, &entry.span, "class", classes(), Because::Gauge.both(), findings);
    let class: Sourced<u32> = record.read("class", provenance)?;
    if !matches!(class.value, 1 | 2 | 5) {
        findings.push(
            Finding::new(codes::OUT_OF_RANGE, Severity::Error, class.origin)
                .about(entry.name)
                .with("key", "class")
                .with("written", class.value.to_string())
                .with("expected", classes()),
        );
        return None;
    }
    Some(size.map(|gauge| match gauge {
        Gauge::CrossSection { area, .. } => Gauge::CrossSection { area, class: class.value as u8 },
        other => other,
    }))
}

/// Constants, or at least [`LEAST_LOSSES`] losses from which they are fitted.
fn line_constants(
    cable: &str,
    record: &Record<'_>,
    provenance: Provenance,
    findings: &mut Findings,
) -> Option<LineConstants> {
    let capacitance = record.read("capacitance", provenance)?;
    let inductance: Option<Sourced<InductancePerLength>> = record.read("inductance", provenance);
    if !record.is_written("losses") {
        for key in ["inductance", "skin_corner", "loss_tangent"] {
            require_in(cable, record, &record.span, key, Because::NoLosses.both(), findings);
        }
        let rest = LineRest::Constants {
            inductance: inductance?,
            skin_corner: record.read("skin_corner", provenance)?,
            loss_tangent: record.read("loss_tangent", provenance)?,
        };
        return Some(LineConstants { capacitance, rest });
    }
    let rows = record.all("losses", |loss| CableLoss::read(loss, provenance))?;
    let refused = |key: &'static str, expected: Both| {
        Finding::new(codes::OUT_OF_RANGE, Severity::Error, record.origin(key))
            .about(cable)
            .with("key", key)
            .with("written", if key == "losses" { rows.len().to_string() } else { String::from("both") })
            .with("expected", expected)
    };
    if rows.len() < LEAST_LOSSES {
        findings.push(refused("losses", Expected::ThreeLosses.both()));
        return None;
    }
    for key in ["skin_corner", "loss_tangent"] {
        if record.is_written(key) {
            findings.push(refused(key, Expected::LossesOrConstants.both()));
            return None;
        }
    }
    Some(LineConstants { capacitance, rest: LineRest::Losses { inductance, rows } })
}

/// Fewest losses that decide corner, inductance and loss tangent.
const LEAST_LOSSES: usize = 3;
