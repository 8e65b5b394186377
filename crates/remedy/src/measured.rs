//! What need not be changed if it measures better than it is reckoned with.
//!
//! A run that nobody measured is reckoned at the upper ends of its tolerances. A measured loop takes their place. What it may be at most for
//! a station to have enough is found by halving in the state in which the station is short, and then judged as a whole like any change;
//! but it is no change, so nothing is written.

use crate::bench::{Bench, Most};
use crate::candidate::{Candidate, quoted};
use crate::{candidates, first_look};
use latchline_assess::rules::codes;
use latchline_finding::quantity::Resistance;
use latchline_finding::{Edit, Finding, LoopMeasurement, Provenance, Remedy, Sourced};
use latchline_network::resistance::section_resistances;
use latchline_site::model::{Run, Site};
use latchline_site::protectors;

/// Most of the voltage lost that a measurement can give back: length and conductor are each some per cent better than their worst.
const MOST_GAINED: f64 = 0.2;
/// Halvings: the interval is a few per cent wide.
const HALVINGS: usize = 7;

/// The loop of a run on the way to a station that has a little too little.
pub(crate) fn loop_to_measure(bench: &Bench<'_>, finding: &Finding) -> Option<Remedy> {
    if !matches!(finding.code, codes::VOLTAGE_TOO_LOW | codes::THIN_MARGIN) {
        return None;
    }
    let site = bench.site;
    let element = finding.element.as_ref()?;
    let device = bench.assessment.devices.iter().find(|device| device.id == *element)?;
    let lost_v = site.family().nominal_voltage.value.as_volts() - device.worst.adverse_v?;
    let thin_v =
        if finding.code == codes::THIN_MARGIN { site.policy.thin_margin.value.as_volts() } else { 0.0 };
    if thin_v - device.worst.margin_v() > MOST_GAINED * lost_v {
        return None;
    }
    let layout = bench.layout();
    let station = site.stations.iter().position(|station| station.id == *element)?;
    let path = candidates::runs_on_path(layout, layout.station[station]?);
    let run = path.into_iter().find(|run| can_be_measured(site, &site.runs[*run]))?;
    let sections = section_resistances(site, &site.runs[run]);
    let expected_ohm: f64 = sections.iter().map(|section| section.ohm[0]).sum();
    let worst_ohm: f64 = sections.iter().map(|section| section.ohm[1]).sum();
    let holds = |ohm: f64| {
        let mut measured = site.clone();
        measured.runs[run].measured.loop_resistance = Some(Sourced {
            provenance: Provenance::Measured,
            ..Sourced::assumed(Resistance::from_ohms(ohm))
        });
        first_look::left_by(&bench.seen(), &measured, finding).is_empty()
    };
    if !holds(expected_ohm) {
        return None;
    }
    let (mut low, mut high) = (expected_ohm, worst_ohm);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    // What a meter shows, to the lower side.
    let steps_per_ohm = if low < 10.0 { 100.0 } else { 10.0 };
    let most_ohm = (low * steps_per_ohm).floor() / steps_per_ohm;
    let run = &site.runs[run];
    let value = quoted(&format!("{most_ohm} ohm"));
    let is_measured = run.measured.capacitance.is_some() || run.measured.insulation.is_some();
    let edit = if is_measured {
        Edit::set(&["runs", run.id.as_str(), "measured", "loop"], value)
    } else {
        Edit::set(&["runs", run.id.as_str(), "measured"], format!("{{ loop = {value} }}"))
    };
    let tried = [Candidate::new("loop-measured", edit)];
    let mending = bench.cheapest_of_each_kind(&tried, finding, Most::kinds(1)).pop()?;
    let last = site.stop_id(run.sections.last()?.to).clone();
    let measure = LoopMeasurement {
        run: run.id.clone(),
        at: site.start_id(run.from),
        joined_at: last,
        expected_ohm,
        most_ohm,
    };
    let Remedy { kind, value_after, clears, brings, .. } = bench.remedy(&tried[0], &mending, finding);
    Some(Remedy { kind, value_after, clears, brings, measure: Some(measure), ..Remedy::default() })
}

/// Whether nobody measured it, and a meter at its start reads the cable alone.
fn can_be_measured(site: &Site, run: &Run) -> bool {
    let is_protected = protectors::of_sections(site, run).iter().any(|section| section.ohm() > 0.0);
    run.measured.loop_resistance.is_none() && !is_protected
}
