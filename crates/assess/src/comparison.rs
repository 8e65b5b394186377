//! What got better and worse from one assessment to another.

use crate::assessment::{Assessment, DeviceResult};
use crate::not_judged::NotJudged;
use latchline_finding::{Code, ElementId, Finding, OperatingState, Severity, StateKind};
use latchline_words::missing::Missing;
use std::collections::{BTreeMap, BTreeSet};

/// Less than this is no difference: volts, amperes or hours.
const SAME: f64 = 0.005;

/// A figure of one element, before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureChange {
    /// The element.
    pub element: ElementId,
    /// Before; `None` where there was no operating point.
    pub old: Option<f64>,
    /// After.
    pub new: Option<f64>,
    /// Whether that is better.
    pub better: bool,
    /// Whether the one before and the one after are lower bounds: at least that much, and perhaps more.
    pub is_bound: [bool; 2],
}

/// The difference of two assessments. Accepted findings count as findings.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Comparison {
    /// Findings that are gone.
    pub gone: Vec<Finding>,
    /// Findings that have come.
    pub come: Vec<Finding>,
    /// Findings of both that matter more than they did, with how much they did before.
    pub graver: Regraded,
    /// Findings of both that matter less.
    pub lesser: Regraded,
    /// States that only one of them has, with the device of the least margin there; margins are not compared in these.
    pub states_of_one: Vec<StateOfOne>,
    /// What is judged now and was not.
    pub judged_now: Vec<NotJudged>,
    /// What is no longer judged.
    pub no_longer_judged: Vec<NotJudged>,
    /// Least margins of devices that both have, over the states that both have, in volts, the largest difference first.
    pub margins_v: Vec<FigureChange>,
    /// Largest currents of sources that both have, in amperes.
    pub currents_a: Vec<FigureChange>,
    /// Shortest hours of batteries of supplies that both have; nought without a battery. Where the two count other calls, only of supplies that
    /// have a battery in one of them alone.
    pub battery_hours: Vec<FigureChange>,
    /// Whether hours of batteries that both have were left out, since other calls are counted.
    pub leaves_out_hours: bool,
    /// What locks have beyond the least that they need, in volts, of doors that both have.
    pub lock_margins_v: Vec<FigureChange>,
}

/// A state of supply and stations that only one of two assessments has: the battery's end, where only one has a battery.
#[derive(Debug, Clone, PartialEq)]
pub struct StateOfOne {
    /// The state.
    pub state: OperatingState,
    /// Whether it is the new one that has it.
    pub is_new: bool,
    /// The device with the least margin there.
    pub device: ElementId,
    /// That margin in volts; `None` without an operating point.
    pub margin_v: Option<f64>,
}

/// The states that `of` has and the other has not, each with its worst device.
fn states_of_one(of: &Assessment, other: &Assessment, is_new: bool) -> Vec<StateOfOne> {
    let known: BTreeSet<StateKind> = other.states.iter().map(|one| one.kind).collect();
    let mut told = BTreeSet::new();
    let only = of.states.iter().filter(|one| !known.contains(&one.kind) && told.insert(one.kind));
    only.filter_map(|state| {
        let margins = of.devices.iter().filter_map(|device| {
            let at = device.by_state.get(&state.kind)?;
            Some((&device.id, at.voltage_v.map(|voltage| voltage - at.limit_v)))
        });
        // Without an operating point is worse than any margin.
        let value = |margin: Option<f64>| margin.unwrap_or(f64::NEG_INFINITY);
        let (device, margin_v) = margins.min_by(|a, b| value(a.1).total_cmp(&value(b.1)))?;
        Some(StateOfOne { state: state.kind.into(), is_new, device: device.clone(), margin_v })
    })
    .collect()
}

/// Findings with how much they mattered before.
pub type Regraded = Vec<(Severity, Finding)>;

/// Findings of both of which the worst of a code and element matters more than before, and those of which it matters less.
fn regraded(old: &Assessment, new: &Assessment) -> (Regraded, Regraded) {
    let mut before: BTreeMap<(Code, Option<&ElementId>), Severity> = BTreeMap::new();
    for finding in all(old) {
        let worst = before.entry(key(finding)).or_insert(finding.severity);
        *worst = finding.severity.max(*worst);
    }
    let mut now: BTreeMap<(Code, Option<&ElementId>), &Finding> = BTreeMap::new();
    for finding in all(new) {
        let worst = now.entry(key(finding)).or_insert(finding);
        if finding.severity > worst.severity {
            *worst = finding;
        }
    }
    let (mut graver, mut lesser) = (Vec::new(), Vec::new());
    for (key, finding) in now {
        match before.get(&key) {
            Some(old) if finding.severity > *old => graver.push((*old, finding.clone())),
            Some(old) if finding.severity < *old => lesser.push((*old, finding.clone())),
            _ => {}
        }
    }
    (graver, lesser)
}

impl Comparison {
    /// From one assessment to another; `counts_like_calls` says whether both sites count the same calls for the hours of batteries.
    pub fn between(old: &Assessment, new: &Assessment, counts_like_calls: bool) -> Comparison {
        let only = |of: &Assessment, other: &Assessment| -> Vec<Finding> {
            let known: BTreeSet<(Code, Option<&ElementId>)> = all(other).map(key).collect();
            all(of).filter(|finding| !known.contains(&key(finding))).cloned().collect()
        };
        let gaps = |of: &Assessment, other: &Assessment| -> Vec<NotJudged> {
            let known: BTreeSet<(Code, &Missing)> =
                other.not_judged.iter().map(|one| (one.code, &one.missing)).collect();
            of.not_judged.iter().filter(|one| !known.contains(&(one.code, &one.missing))).cloned().collect()
        };
        // A state that only one of them has, the battery's end say, makes nothing better or worse.
        let states =
            |of: &Assessment| -> BTreeSet<StateKind> { of.states.iter().map(|one| one.kind).collect() };
        let in_both: BTreeSet<StateKind> = states(old).intersection(&states(new)).copied().collect();
        let margin = |of: &Assessment| -> BTreeMap<ElementId, Option<f64>> {
            let least = |one: &DeviceResult| {
                let like = one.by_state.iter().filter(|(state, _)| in_both.contains(state));
                let margins = like.map(|(_, at)| at.voltage_v.map(|voltage| voltage - at.limit_v));
                // No operating point in one state is none.
                margins.reduce(|a, b| Some(a?.min(b?))).flatten()
            };
            of.devices.iter().map(|one| (one.id.clone(), least(one))).collect()
        };
        let current = |of: &Assessment| -> BTreeMap<ElementId, Option<f64>> {
            of.sources.iter().map(|one| (one.id.clone(), one.current.current_a)).collect()
        };
        let hours = |of: &Assessment| -> BTreeMap<ElementId, Option<f64>> {
            let battery = |sheet: &crate::SupplySheet| {
                // No battery is none for no hour; one that cannot be judged says nothing.
                let hours = match &sheet.battery {
                    None => 0.0,
                    Some(judged) => judged.as_ref().ok()?.shortest()?.hours,
                };
                Some((sheet.supply.clone(), Some(hours)))
            };
            of.supply_sheets.iter().filter_map(battery).collect()
        };
        let is_bound = |of: &Assessment, element: &ElementId| {
            of.devices.iter().any(|one| one.id == *element && one.worst.is_bound)
        };
        let mut margins_v = figures(&margin(old), &margin(new), true);
        for change in &mut margins_v {
            change.is_bound = [is_bound(old, &change.element), is_bound(new, &change.element)];
        }
        let (mut battery_hours, mut leaves_out_hours) = (figures(&hours(old), &hours(new), true), false);
        if !counts_like_calls {
            // Had none, or has none any more: that is so whatever the calls.
            let is_of_one = |change: &FigureChange| change.old == Some(0.0) || change.new == Some(0.0);
            battery_hours.retain(is_of_one);
            let none = [None, Some(&Some(0.0))];
            let (before, after) = (hours(old), hours(new));
            leaves_out_hours =
                before.iter().any(|(one, had)| *had != Some(0.0) && !none.contains(&after.get(one)));
        }
        let (graver, lesser) = regraded(old, new);
        let states_of_one =
            states_of_one(old, new, false).into_iter().chain(states_of_one(new, old, true)).collect();
        Comparison {
            gone: only(old, new),
            come: only(new, old),
            graver,
            lesser,
            states_of_one,
            judged_now: gaps(old, new),
            no_longer_judged: gaps(new, old),
            margins_v,
            currents_a: figures(&current(old), &current(new), false),
            battery_hours,
            leaves_out_hours,
            lock_margins_v: figures(&lock_margins(old), &lock_margins(new), true),
        }
    }
}

/// What each lock has beyond the least that it needs, in volts, by its door, and by its number where the door has several.
fn lock_margins(of: &Assessment) -> BTreeMap<ElementId, Option<f64>> {
    let mut margins = BTreeMap::new();
    for door in &of.doors {
        for (number, lock) in (1..).zip(&door.locks) {
            let Ok(circuit) = &lock.circuit else { continue };
            let name = match door.locks.len() {
                1 => door.entrance.clone(),
                _ => ElementId::from(format!("{} {number}", door.entrance)),
            };
            margins.insert(name, Some(circuit.least_v - circuit.least_allowed_v));
        }
    }
    margins
}

fn all(assessment: &Assessment) -> impl Iterator<Item = &Finding> {
    assessment.read.iter().chain(&assessment.findings)
}

fn key(finding: &Finding) -> (Code, Option<&ElementId>) {
    (finding.code, finding.element.as_ref())
}

/// Figures that differ, the largest difference first; without an operating point a figure is as bad as can be.
fn figures(
    old: &BTreeMap<ElementId, Option<f64>>,
    new: &BTreeMap<ElementId, Option<f64>>,
    more_is_better: bool,
) -> Vec<FigureChange> {
    let worst = if more_is_better { f64::NEG_INFINITY } else { f64::INFINITY };
    let value = |figure: Option<f64>| figure.unwrap_or(worst);
    let mut changes: Vec<FigureChange> = new
        .iter()
        .filter_map(|(element, new)| {
            let old = *old.get(element)?;
            let differs = match (old, *new) {
                (Some(old), Some(new)) => (old - new).abs() > SAME,
                (old, new) => old.is_some() != new.is_some(),
            };
            let better = (value(*new) > value(old)) == more_is_better;
            differs.then(|| FigureChange {
                element: element.clone(),
                old,
                new: *new,
                better,
                is_bound: [false; 2],
            })
        })
        .collect();
    let size = |change: &FigureChange| (value(change.old) - value(change.new)).abs();
    changes.sort_by(|a, b| size(b).total_cmp(&size(a)).then_with(|| a.element.cmp(&b.element)));
    changes
}
