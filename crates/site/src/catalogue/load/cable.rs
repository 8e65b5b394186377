//! Cables.

use super::{ENVIRONMENTS, head, require, require_in};
use crate::catalogue::{Cable, CableLoss, Environment, Gauge, LineConstants, LineRest, Material};
use crate::codes;
use crate::parse::{Entry, Findings, Record, Value};
use latchline_finding::Both;
use latchline_finding::quantity::{
    CapacitancePerLength, Decibels, Frequency, InductancePerLength, Length, Ratio, Temperature,
};
use latchline_finding::{Finding, Origin, Provenance, Severity, Sourced};
use latchline_words::reading::{Because, Expected};

const MATERIALS: &[(&str, Material)] = &[
    ("copper", Material::Copper),
    ("clad-aluminium-10", Material::CladAluminium10),
    ("clad-aluminium-15", Material::CladAluminium15),
    ("aluminium", Material::Aluminium),
];

pub(super) fn cable(entry: &Entry<'_>, provenance: Provenance, findings: &mut Findings) -> Option<Cable> {
    let record = &entry.record;
    let gauge = gauge(entry, provenance, findings)?;
    // The tables of IEC 60228 give the highest resistance already.
    let stated = record.quantity("resistance_tolerance", provenance, Ratio::from_fraction);
    let tolerance = match (stated, gauge.value) {
        (None, Gauge::CrossSection { .. }) => Sourced::new(Ratio::ZERO, Origin::None, Provenance::Standard),
        (stated, _) => record.or_assumed("resistance_tolerance", stated, Ratio::from_fraction(0.05)),
    };
    let line = match record.table("line") {
        Some(line) => Some(line_constants(entry.name, line, provenance, findings)?),
        None if record.is_written("line") => return None,
        None => None,
    };
    let truth =
        |key: &str, default: bool| record.boolean(key, provenance).unwrap_or(Sourced::assumed(default));
    Some(Cable {
        head: head(entry, provenance)?,
        gauge,
        material: record
            .word("material", provenance, MATERIALS)
            // A cable that says nothing of its metal is of copper: no assumption to be told.
            .unwrap_or(Sourced::new(Material::Copper, Origin::None, provenance)),
        coated: truth("coated", false),
        resistance_tolerance: tolerance,
        pairs: record.integer("pairs", provenance).unwrap_or(Sourced::assumed(1)),
        environments: environments(record, provenance),
        screened: truth("screened", false),
        mains_insulated: truth("mains_insulated", false),
        conductor_temperature_limit: record.quantity(
            "conductor_temperature_limit",
            provenance,
            Temperature::from_celsius,
        ),
        line,
        drum_lengths: record
            .list("drum_lengths")
            .iter()
            .filter_map(|item| match item.value {
                Value::Quantity(length) => {
                    Some(Sourced::new(Length::from_metres(length), record.at(&item.span), provenance))
                }
                _ => None,
            })
            .collect(),
    })
}

fn gauge(entry: &Entry<'_>, provenance: Provenance, findings: &mut Findings) -> Option<Sourced<Gauge>> {
    let record = &entry.record;
    let size = record.gauge("gauge", provenance)?;
    if !matches!(size.value, Gauge::CrossSection { .. }) {
        return Some(size);
    }
    require(entry, "class", Because::Gauge.both(), findings);
    let class = record.integer("class", provenance)?;
    if !matches!(class.value, 1 | 2 | 5) {
        findings.push(
            Finding::new(codes::OUT_OF_RANGE, Severity::Error, class.origin)
                .about(entry.name)
                .with("key", "class")
                .with("written", class.value.to_string())
                .with("expected", Expected::ConductorClass.both()),
        );
        return None;
    }
    Some(size.map(|gauge| match gauge {
        Gauge::CrossSection { area, .. } => Gauge::CrossSection { area, class: class.value as u8 },
        other => other,
    }))
}

fn environments(record: &Record<'_>, provenance: Provenance) -> Sourced<Vec<Environment>> {
    let Some(field) = record.field("environments") else {
        return Sourced::assumed(vec![Environment::Indoors]);
    };
    let list = record.list("environments").iter().filter_map(|item| match item.value {
        Value::Text(word) => ENVIRONMENTS.iter().find(|(name, _)| *name == word).map(|(_, meaning)| *meaning),
        _ => None,
    });
    Sourced::new(list.collect(), record.at(&field.span), provenance)
}

/// Constants, or at least [`LEAST_LOSSES`] losses from which they are fitted.
fn line_constants(
    cable: &str,
    record: &Record<'_>,
    provenance: Provenance,
    findings: &mut Findings,
) -> Option<LineConstants> {
    let capacitance =
        record.quantity("capacitance", provenance, CapacitancePerLength::from_farads_per_metre)?;
    let inductance = record.quantity("inductance", provenance, InductancePerLength::from_henries_per_metre);
    if !record.is_written("losses") {
        for key in ["inductance", "skin_corner", "loss_tangent"] {
            require_in(cable, record, &record.span, key, Because::NoLosses.both(), findings);
        }
        let rest = LineRest::Constants {
            inductance: inductance?,
            skin_corner: record.quantity("skin_corner", provenance, Frequency::from_hertz)?,
            loss_tangent: record.number("loss_tangent", provenance)?.map(Ratio::from_fraction),
        };
        return Some(LineConstants { capacitance, rest });
    }
    let mut rows = Vec::new();
    for item in record.list("losses") {
        let Value::Table(inner) = &item.value else { return None };
        rows.push(CableLoss {
            frequency: inner.quantity("frequency", provenance, Frequency::from_hertz)?,
            loss_per_100_m: inner.quantity("loss", provenance, Decibels::from_decibels)?,
        });
    }
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
